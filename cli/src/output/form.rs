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
    /// A painted mesh: the ending says in which form.
    Painted,
    /// The scale of its colours.
    Scale,
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
            Self::Drawing | Self::Scale => &["svg"],
            Self::Painted => &["3mf", "ply"],
            Self::Toml => &["toml"],
            Self::Own => &[],
        }
    }

    pub(crate) fn words(self) -> &'static str {
        match self {
            Self::Page => "a page in HTML",
            Self::Drawing => "a drawing in SVG",
            Self::Scale => "the scale of colours in SVG",
            Self::Painted => "a mesh as 3MF or PLY",
            Self::Toml => "text in TOML",
            Self::Own => "a file of this program",
        }
    }

    /// Whether a name ends as such files do.
    fn named(self, path: &Path) -> bool {
        let ending = path.extension().and_then(|ending| ending.to_str()).map(str::to_ascii_lowercase);
        ending.is_some_and(|ending| self.endings().contains(&ending.as_str()))
    }

    /// Refuses a name whose ending says that the file is something else.
    pub(super) fn fits(self, path: &Path) -> Result<(), Failure> {
        let strict = match self {
            Self::Painted => Some(("neither .3mf nor .ply", "end the name in .3mf or .ply")),
            Self::Scale => Some(("not .svg", "the scale is written as .svg")),
            _ => None,
        };
        if let Some((wrong, help)) = strict {
            return self
                .named(path)
                .then_some(())
                .ok_or_else(|| Failure::Refused { message: format!("{} is {wrong}", shown(path)), help: help.into() });
        }
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
