//! What a file is by its first bytes, so that one handed over in place of another is called by its name.

/// Kinds of files that get mixed up with those of this program.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
#[allow(missing_docs, reason = "each is told by its words")]
pub enum FileKind {
    BinaryStl,
    AsciiStl,
    ThreeMf,
    Zip,
    Gzip,
    Pdf,
    Png,
    Jpeg,
    BinaryGltf,
    Obj,
    Ply,
    Step,
    MotionWords,
    Page,
    Xml,
    Json,
    BenchLog,
    Job,
    Card,
    Study,
    Toml,
    Table,
    Utf16,
}

/// As much of a text as is looked at.
const LOOKED_AT: usize = 16_384;

/// Lines of a text that are looked at.
const LINES: usize = 60;

impl FileKind {
    /// What a file is; `None` where nothing tells.
    ///
    /// ```
    /// use layload_solid::input::FileKind;
    ///
    /// let zipped = FileKind::of(b"PK\x03\x04").map(FileKind::words);
    /// assert!(zipped.is_some(), "an archive is no STL");
    /// assert!(FileKind::of(b"solid rod").is_none());
    /// ```
    pub fn of(bytes: &[u8]) -> Option<Self> {
        by_mark(bytes).or_else(|| is_binary_stl(bytes).then_some(Self::BinaryStl)).or_else(|| of_text(bytes))
    }

    /// The kind in words, with its article.
    pub fn words(self) -> &'static str {
        match self {
            Self::BinaryStl => "a mesh as binary STL",
            Self::AsciiStl => "a mesh as ASCII STL",
            Self::ThreeMf => "a 3MF file",
            Self::Zip => "a ZIP archive",
            Self::Gzip => "a file packed with gzip",
            Self::Pdf => "a PDF document",
            Self::Png => "a picture in PNG",
            Self::Jpeg => "a picture in JPEG",
            Self::BinaryGltf => "a mesh as binary glTF",
            Self::Obj => "a mesh as OBJ",
            Self::Ply => "a mesh as PLY",
            Self::Step => "a STEP model",
            Self::MotionWords => "G-code, motion words for a printer",
            Self::Page => "a page in HTML",
            Self::Xml => "text in XML",
            Self::Json => "text in JSON",
            Self::BenchLog => "a bench log",
            Self::Job => "a job file",
            Self::Card => "a material card",
            Self::Study => "a study file",
            Self::Toml => "text in TOML",
            Self::Table => "a table of rows and columns",
            Self::Utf16 => "text in UTF-16",
        }
    }
}

/// By the marks that formats put at their beginning.
fn by_mark(bytes: &[u8]) -> Option<FileKind> {
    let marks: [(&[u8], FileKind); 9] = [
        (b"%PDF-", FileKind::Pdf),
        (b"\x89PNG\r\n\x1a\n", FileKind::Png),
        (b"\xff\xd8\xff", FileKind::Jpeg),
        (b"\x1f\x8b", FileKind::Gzip),
        (b"glTF", FileKind::BinaryGltf),
        (b"ply\n", FileKind::Ply),
        (b"ply\r\n", FileKind::Ply),
        (b"\xff\xfe", FileKind::Utf16),
        (b"\xfe\xff", FileKind::Utf16),
    ];
    if bytes.starts_with(b"PK\x03\x04") {
        // The names of what is in it stand in the clear.
        let has = |name: &[u8]| bytes.windows(name.len()).any(|part| part == name);
        return Some(if has(b"3D/") && has(b".model") { FileKind::ThreeMf } else { FileKind::Zip });
    }
    let marked = marks.iter().find(|(mark, _)| bytes.starts_with(mark)).map(|(_, kind)| *kind);
    // A header of a binary STL may begin with anything; its length tells.
    marked.filter(|_| !is_binary_stl(bytes)).or_else(|| is_utf16(bytes).then_some(FileKind::Utf16))
}

/// 80 bytes, a count, and 50 bytes for each facet counted.
fn is_binary_stl(bytes: &[u8]) -> bool {
    let count = bytes.get(80..84).and_then(|four| four.try_into().ok()).map(u32::from_le_bytes);
    count.is_some_and(|count| count > 0 && bytes.len() as u64 == 84 + 50 * u64::from(count))
}

/// Text of which every other byte is 0: UTF-16 without a mark of its order.
fn is_utf16(bytes: &[u8]) -> bool {
    let head = &bytes[..bytes.len().min(64) & !1];
    let zeros = |odd: usize| head.iter().skip(odd).step_by(2).all(|&byte| byte == 0);
    let letters = |odd: usize| head.iter().skip(odd).step_by(2).all(|&byte| (b'\t'..0x7f).contains(&byte));
    head.len() >= 8 && ((zeros(1) && letters(0)) || (zeros(0) && letters(1)))
}

fn of_text(bytes: &[u8]) -> Option<FileKind> {
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let head = &bytes[..bytes.len().min(LOOKED_AT)];
    if head.contains(&0) {
        return None;
    }
    let text = String::from_utf8_lossy(head);
    let start = text.trim_start().get(..40).unwrap_or(text.trim_start()).to_ascii_lowercase();
    let begins = |words: &[&str]| words.iter().any(|word| start.starts_with(word));
    if begins(&["iso-10303-21"]) {
        return Some(FileKind::Step);
    }
    if begins(&["<!doctype html", "<html"]) {
        return Some(FileKind::Page);
    }
    if begins(&["<?xml", "<"]) {
        return Some(FileKind::Xml);
    }
    if begins(&["solid"]) && text.to_ascii_lowercase().contains("facet") {
        return Some(FileKind::AsciiStl);
    }
    let lines: Vec<&str> = text.lines().map(str::trim).filter(|line| !line.is_empty()).take(LINES).collect();
    let said: Vec<&str> = lines.iter().copied().filter(|line| !line.starts_with('#')).collect();
    if said.first().is_some_and(|line| line.starts_with('{')) {
        let log = said[0].contains("\"family\"") && said[0].contains("\"outcome\"");
        return Some(if log { FileKind::BenchLog } else { FileKind::Json });
    }
    let mut spoken = said.iter().filter(|line| !line.starts_with(';'));
    if spoken.clone().any(|line| is_motion(line)) && spoken.all(|line| is_motion(line) || !line.contains('=')) {
        return Some(FileKind::MotionWords);
    }
    if said.iter().any(|line| is_corner(line)) {
        return Some(FileKind::Obj);
    }
    of_toml(&said).or_else(|| is_table(&said).then_some(FileKind::Table))
}

/// `G1 X10 Y2` or `M104 S210`, a remark after it or not.
fn is_motion(line: &str) -> bool {
    let word = line.split_ascii_whitespace().next().unwrap_or_default();
    let mut letters = word.chars();
    let first = letters.next().is_some_and(|letter| matches!(letter, 'G' | 'M' | 'g' | 'm'));
    let number = letters.as_str();
    first
        && !number.is_empty()
        && number.len() <= 4
        && number.chars().all(|digit| digit.is_ascii_digit() || digit == '.')
}

/// `v 0 1.5 2`, as in OBJ.
fn is_corner(line: &str) -> bool {
    let mut words = line.split_ascii_whitespace();
    words.next() == Some("v") && words.clone().count() >= 3 && words.all(|word| word.parse::<f64>().is_ok())
}

/// TOML by its tables, and by which of them only one kind of file has.
fn of_toml(lines: &[&str]) -> Option<FileKind> {
    let table = |line: &str| -> Option<String> {
        let inner = line.trim_start_matches('[').split(']').next()?;
        let name = line.starts_with('[') && !inner.is_empty();
        (name && inner.chars().all(|c| c.is_ascii_alphanumeric() || "._-".contains(c)))
            .then(|| inner.split('.').next().unwrap_or(inner).to_string())
    };
    let key = |line: &str| {
        let name = line.split_once('=').map(|(name, _)| name.trim());
        name.filter(|name| !name.is_empty() && name.chars().all(|c| c.is_ascii_alphanumeric() || "._-".contains(c)))
            .map(String::from)
    };
    let tables: Vec<String> = lines.iter().filter_map(|line| table(line)).collect();
    let keys: Vec<String> = lines.iter().filter_map(|line| key(line)).collect();
    if tables.is_empty() && keys.is_empty() {
        return None;
    }
    let has = |names: &[&str]| tables.iter().any(|own| names.contains(&own.as_str()));
    let says = |names: &[&str]| keys.iter().any(|own| names.contains(&own.as_str()));
    Some(if has(&["engine", "duty", "part", "print", "surroundings", "model"]) {
        FileKind::Job
    } else if has(&["inputs"]) || says(&["meshes", "sampling"]) {
        FileKind::Study
    } else if has(&["stiffness", "strength", "fatigue", "creep", "thermal"]) || says(&["density_kg_m3"]) {
        FileKind::Card
    // Programs too set names to values; in TOML nearly every line does.
    } else if 5 * (tables.len() + keys.len()) >= 4 * lines.len() {
        FileKind::Toml
    } else {
        return None;
    })
}

/// Two or more columns in the first rows, parted alike.
fn is_table(lines: &[&str]) -> bool {
    let parted = |sign: char| {
        let mut counts = lines.iter().take(4).map(|line| line.matches(sign).count());
        let first = counts.next().unwrap_or(0);
        first > 0 && counts.all(|count| count == first)
    };
    [',', ';', '\t'].into_iter().any(parted)
}
