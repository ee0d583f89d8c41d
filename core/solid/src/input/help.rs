//! What a user can do about an error.

use std::borrow::Cow;

use super::file_kind::FileKind;
use crate::units::LengthUnit;

/// What to do about an error. [`Help::Words`] is one sentence for everybody. The others speak of inputs, which have another
/// name for every user: an option of a command line, a key of the job, a field of a form. Whoever shows them words them, and
/// a new one does not compile before that.
#[derive(Debug, Clone, PartialEq)]
pub enum Help {
    /// A sentence that names no input.
    Words(Cow<'static, str>),
    /// A value of the job has to be given.
    Give {
        /// Its key in a job file.
        key: String,
    },
    /// See how a job file is written.
    SeeJobFile,
    /// See how a material card is written.
    SeeCard,
    /// Say in which unit the mesh was drawn, or that it is right as it is.
    SayUnit {
        /// The units in which it is as long as such parts are; none where no unit fits.
        fitting: Vec<LengthUnit>,
    },
    /// Choose one body of the file by its number.
    ChooseBody,
    /// Name the bores of a rod by hand.
    NameRod,
    /// Say that the part is a piston, and name what is not seen of it.
    NamePiston,
    /// One of the two: [`Help::NameRod`] or [`Help::NamePiston`].
    NameEither,
    /// Say that these are bores, or export finer curves.
    ConfirmBores(BoresByHand),
    /// Say which way the bore axes point.
    GivePinAxis,
    /// Ask by the stress field too.
    AskField,
    /// Ask without the stress field.
    LeaveFieldOut,
    /// Ask of a piston what pistons answer: a check, walls, a check in another build direction.
    AskOfPiston,
    /// Ask for another number of them.
    Count {
        /// As many as usual.
        usual: usize,
    },
    /// Give two speeds that rise from above zero.
    SpeedRange,
    /// A file of this program was given as the mesh: give it in its own place.
    InPlaceOfMesh(OwnFile),
    /// Correct a line of a bench log.
    CorrectLog,
    /// Say what a run was: its steps.
    GiveSteps,
    /// Add a run to an empty bench log.
    AddRun,
    /// Choose a family of parts that a bench log has.
    ChooseFamily {
        /// Those it has.
        known: Vec<String>,
    },
}

/// Bores of a rod as they are named by hand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoresByHand {
    /// Centre and diameter of the small end, mm in the file.
    pub small_end_mm: [f64; 4],
    /// Centre and diameter of the big end, mm in the file.
    pub big_end_mm: [f64; 4],
    /// Direction of both axes, in the file.
    pub pin_axis: [f64; 3],
}

/// Files that this program reads beside meshes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OwnFile {
    /// A job.
    Job,
    /// A material card.
    Card,
    /// A study.
    Study,
    /// A bench log.
    BenchLog,
}

impl From<String> for Help {
    fn from(words: String) -> Self {
        Self::Words(words.into())
    }
}

impl From<&'static str> for Help {
    fn from(words: &'static str) -> Self {
        Self::Words(words.into())
    }
}

impl FileKind {
    /// What to do where an STL is wanted.
    pub(crate) fn instead_of_mesh(self) -> Help {
        Help::from(match self {
            Self::ThreeMf => "export the part as STL, or open the 3MF file and save its one part as STL",
            Self::Zip | Self::Gzip => "unpack it first and give the STL file in it",
            Self::Obj | Self::Ply | Self::BinaryGltf => {
                "convert it to STL, binary or ASCII; other mesh formats are not read"
            }
            Self::Step => "open it in the drawing program and export the part as STL; chord error 0.01 mm is plenty",
            Self::MotionWords => "give the STL from which the printer's program was made",
            Self::Utf16 => "save the ASCII STL as UTF-8, or export it as binary STL",
            Self::Job | Self::Toml => return Help::InPlaceOfMesh(OwnFile::Job),
            Self::Card => return Help::InPlaceOfMesh(OwnFile::Card),
            Self::Study => return Help::InPlaceOfMesh(OwnFile::Study),
            Self::BenchLog => return Help::InPlaceOfMesh(OwnFile::BenchLog),
            _ => "export the part as STL, binary or ASCII; other formats are not read",
        })
    }
}
