use std::path::Path;

use crate::failure::Failure;
use crate::visible::shown;

/// What a file holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Form {
    /// The page of a record.
    Page,
    /// A drawing.
    Drawing,
    /// A painted mesh.
    Painted,
    /// A job or a card.
    Toml,
    /// Results of a study, or its journals: names of the program's own.
    Own,
}

/// Endings by which files of other kinds are known. A name without an ending, or with one of nobody's, is free.
const KNOWN: [&str; 32] = [
    "pdf", "json", "html", "htm", "svg", "csv", "toml", "png", "jpg", "jpeg", "gif", "webp", "stl", "3mf", "obj",
    "ply", "step", "stp", "gcode", "zip", "gz", "xz", "xml", "md", "txt", "doc", "docx", "odt", "xls", "xlsx", "ods",
    "parquet",
];

impl Form {
    /// Endings that say what it is.
    fn endings(self) -> &'static [&'static str] {
        match self {
            Self::Page => &["html", "htm"],
            Self::Drawing => &["svg"],
            Self::Painted => &["3mf", "ply"],
            Self::Toml => &["toml"],
            Self::Own => &[],
        }
    }

    fn words(self) -> &'static str {
        match self {
            Self::Page => "a page in HTML",
            Self::Drawing => "a drawing in SVG",
            Self::Painted => "a mesh as 3MF or PLY",
            Self::Toml => "text in TOML",
            Self::Own => "a file of this program",
        }
    }

    /// Refuses a name whose ending says that the file is something else.
    pub(super) fn fits(self, path: &Path) -> Result<(), Failure> {
        let Some(ending) = path.extension().and_then(|ending| ending.to_str()).map(str::to_ascii_lowercase) else {
            return Ok(());
        };
        let own = self.endings();
        if self == Self::Own || own.contains(&ending.as_str()) || !KNOWN.contains(&ending.as_str()) {
            return Ok(());
        }
        let endings: Vec<String> = own.iter().map(|ending| format!(".{ending}")).collect();
        let more = if ending == "pdf" { "; a browser prints the page as PDF" } else { "" };
        Err(Failure::Refused {
            message: format!("{} ends in .{ending}, but what is written is {}", shown(path), self.words()),
            help: format!("end the name in {}{}", endings.join(" or "), if self == Self::Page { more } else { "" }),
        })
    }
}
