use std::fs::File;
use std::io::Read as _;
use std::path::Path;

use layload_core::FileKind;

use super::wanted::Wanted;
use crate::failure::Failure;
use crate::visible::shown;

/// Bytes of a mesh file.
pub(crate) fn bytes(path: &Path) -> Result<Vec<u8>, Failure> {
    within(path, Wanted::Mesh)
}

/// Text of a file; one that is plainly of another kind is called by its name.
pub(crate) fn text(path: &Path, wanted: Wanted) -> Result<String, Failure> {
    let mut bytes = within(path, wanted)?;
    if let Some(kind) = FileKind::of(&bytes)
        && !wanted.may_be(kind)
    {
        return Err(Failure::Refused {
            message: format!("{} is {}, not {}", shown(path), kind.words(), wanted.words()),
            help: wanted.instead(kind),
        });
    }
    // The mark that some systems put before text in UTF-8.
    if bytes.starts_with(b"\xef\xbb\xbf") {
        bytes.drain(..3);
    }
    String::from_utf8(bytes).map_err(|error| {
        let good = error.utf8_error().valid_up_to();
        let line = error.as_bytes()[..good].split(|&byte| byte == b'\n').count();
        Failure::Refused {
            message: format!("{} is not text in UTF-8: line {line} has a letter in another encoding", shown(path)),
            help: format!("save it as UTF-8, and check that it is {}", wanted.words()),
        }
    })
}

/// A whole file, which is not read when it is too large.
pub(super) fn within(path: &Path, wanted: Wanted) -> Result<Vec<u8>, Failure> {
    let unreadable = |error: &std::io::Error| Failure::unreadable(path, error);
    let limit_mib = wanted.limit_mib();
    let limit = limit_mib << 20;
    let file = File::open(path).map_err(|error| unreadable(&error))?;
    // What is no file on disk, such as a pipe, has no length yet.
    let length = file.metadata().map_err(|error| unreadable(&error))?.len();
    let too_large = || Failure::TooLarge { path: path.into(), limit_mib, less: wanted.less() };
    if length > limit {
        return Err(too_large());
    }
    let mut bytes = Vec::with_capacity(length as usize + 1);
    file.take(limit + 1).read_to_end(&mut bytes).map_err(|error| unreadable(&error))?;
    if bytes.len() as u64 > limit { Err(too_large()) } else { Ok(bytes) }
}
