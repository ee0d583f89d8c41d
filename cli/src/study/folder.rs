use std::collections::BTreeMap;
use std::fs::{self, File, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use layload_core::study::StudyPlan;

use super::table::{Row, input_fields, lines, rows_in};
use crate::args::Shard;
use crate::failure::Failure;
use crate::output::{Form, Outputs, Plan};
use crate::visible::shown;

/// The folder of a study.
pub(crate) struct Folder {
    path: PathBuf,
    columns: Vec<String>,
    outputs: Outputs,
}

/// What the study was of: results of another one are not mixed in.
const INPUTS: &str = "inputs.txt";

impl Folder {
    /// Opens a folder for a study, with the place of its results. `told` is everything they depend on; a folder of another study is refused, and one
    /// that has this shard's cases already unless it is to be resumed.
    pub(crate) fn open(
        path: &Path,
        told: &str,
        columns: Vec<String>,
        shard: Shard,
        resume: bool,
        outputs: impl FnOnce() -> Result<Outputs, Failure>,
    ) -> Result<Self, Failure> {
        let unwritable = |error: &io::Error| Failure::Unwritable { path: path.into(), reason: error.to_string() };
        fs::create_dir_all(path).map_err(|error| unwritable(&error))?;
        let folder = Self { path: path.into(), columns, outputs: outputs()? };
        let inputs = path.join(INPUTS);
        if !inputs.exists() {
            // Of shards that begin at once the first writes it; the others find it there and hold theirs against it.
            let new = Plan::new(false).file(&inputs, Form::Own).and_then(Plan::checked);
            match new.and_then(|new| new.write_one(&inputs, told.into())) {
                Ok(()) | Err(Failure::Exists { .. }) => {}
                Err(other) => return Err(other),
            }
        }
        let known = fs::read_to_string(&inputs).map_err(|error| Failure::unreadable(&inputs, &error))?;
        if known != told {
            return Err(Failure::Refused {
                message: format!("{} holds results of another study", path.display()),
                help: format!("give another --out; {INPUTS} there says what it is of"),
            });
        }
        let journal = folder.journal(shard);
        if !resume && journal.exists() {
            return Err(Failure::Refused {
                message: format!("{} has cases of this study already", path.display()),
                help: "go on with --resume, or give another --out".into(),
            });
        }
        Ok(folder)
    }

    fn journal(&self, shard: Shard) -> PathBuf {
        self.path.join(format!("cases-{}-of-{}.csv", shard.number, shard.count))
    }

    /// Every finished case of every shard, by its number. A journal that holds a case that this study does not have, or one
    /// with other inputs, was put there from another study.
    pub(crate) fn finished(&self, plan: &StudyPlan) -> Result<BTreeMap<usize, Row>, Failure> {
        let listed = fs::read_dir(&self.path).map_err(|error| Failure::unreadable(&self.path, &error))?;
        let mut names: Vec<PathBuf> = listed.filter_map(Result::ok).map(|entry| entry.path()).collect();
        names.sort();
        let mut rows = BTreeMap::new();
        for path in names {
            let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
            if name.starts_with("cases-") && path.extension().is_some_and(|ending| ending == "csv") {
                let text = fs::read(&path).map_err(|error| Failure::unreadable(&path, &error))?;
                for row in rows_in(&text, self.columns.len()) {
                    let own = row.case < plan.count()
                        && row
                            .fields
                            .get(1..=plan.inputs.len())
                            .is_some_and(|said| said == input_fields(&plan.case(row.case)));
                    if !own {
                        return Err(Failure::Refused {
                            message: format!("{} holds case {}, which is not of this study", shown(&path), row.case),
                            help: "take that journal out of the folder, or give another --out".into(),
                        });
                    }
                    rows.insert(row.case, row);
                }
            }
        }
        Ok(rows)
    }

    /// Opens a shard's journal for more cases; a line left unfinished is cut off.
    pub(crate) fn journal_for(&self, shard: Shard) -> Result<Journal, Failure> {
        let path = self.journal(shard);
        let failed = |error: &io::Error| Failure::Unwritable { path: path.clone(), reason: error.to_string() };
        let file = OpenOptions::new().append(true).create(true).open(&path).map_err(|error| failed(&error))?;
        // Two programs that run one shard would write every case twice.
        file.try_lock().map_err(|_| Failure::Refused {
            message: format!("{} is being written by another program", path.display()),
            help: "let it end, or run another shard".into(),
        })?;
        let text = fs::read(&path).map_err(|error| Failure::unreadable(&path, &error))?;
        let end = text.iter().rposition(|&byte| byte == b'\n').map_or(0, |last| last + 1);
        if end < text.len() {
            file.set_len(end as u64).map_err(|error| failed(&error))?;
        }
        Ok(Journal { file, path })
    }

    /// The table of all cases in order.
    pub(crate) fn table(&self, rows: &BTreeMap<usize, Row>) -> Vec<u8> {
        lines(core::iter::once(&self.columns).chain(rows.values().map(|row| &row.fields)))
    }

    /// The place of the results.
    pub(crate) fn outputs(&self) -> &Outputs {
        &self.outputs
    }
}

/// Finished cases of one shard, in the order in which they came.
pub(crate) struct Journal {
    file: File,
    path: PathBuf,
}

impl Journal {
    /// Adds cases in one piece.
    pub(crate) fn add(&mut self, rows: &[Row]) -> Result<(), Failure> {
        let bytes: Vec<u8> = rows.iter().flat_map(Row::line).collect();
        self.file
            .write_all(&bytes)
            .and_then(|()| self.file.sync_data())
            .map_err(|error| Failure::Unwritable { path: self.path.clone(), reason: error.to_string() })
    }
}
