//! Single entries of a job by their names in a job file, for hosts that build forms of their own.

use toml::{Table, Value};

use super::error::JobError;
use super::file::{Job, written};

impl Job {
    /// The value under a key such as `part.big_end.cap.studs`, in the words of a job file and on one line; `None` where
    /// nothing is said, or a table.
    ///
    /// # Errors
    ///
    /// Where the job cannot be written.
    ///
    /// ```
    /// use layload_core::job::Job;
    ///
    /// # fn main() -> Result<(), layload_core::job::JobError> {
    /// let job = Job::from_toml("[print]\nwalls = 3")?;
    /// assert_eq!(job.key("print.walls")?.as_deref(), Some("3"));
    /// assert_eq!(job.key("print.infill_percent")?, None);
    /// # Ok(())
    /// # }
    /// ```
    pub fn key(&self, name: &str) -> Result<Option<String>, JobError> {
        let (path, last) = split(name);
        let Some(value) = within(self.to_table()?, path).and_then(|mut table| table.remove(last)) else {
            return Ok(None);
        };
        // Written by itself a value is on one line, a list of tables too.
        let said = !value.is_table() && value.as_array().is_none_or(|list| !list.is_empty());
        Ok(said.then(|| value.to_string()))
    }

    /// Sets what is said under a key, in the words of a job file (`2`, `"ball"`) on one line, or takes it out.
    ///
    /// A key that jobs do not have, or a value of another kind, is refused; whether the number makes sense shows when a
    /// question is asked.
    ///
    /// # Errors
    ///
    /// Where jobs have no such key, or it takes another kind of value.
    ///
    /// ```
    /// use layload_core::job::Job;
    ///
    /// # fn main() -> Result<(), layload_core::job::JobError> {
    /// let mut job = Job::default();
    /// job.set_key("material.name", Some("\"PA12-CF15\""))?;
    /// assert_eq!(job.material.name.as_deref(), Some("PA12-CF15"));
    /// assert!(job.set_key("material.colour", Some("1")).is_err());
    /// # Ok(())
    /// # }
    /// ```
    pub fn set_key(&mut self, name: &str, value: Option<&str>) -> Result<(), JobError> {
        let (path, last) = split(name);
        let given = match value {
            None => None,
            Some(text) if text.contains(['\n', '\r']) => return Err(refused(name, "give one line")),
            Some(text) => {
                let alone = Self::from_toml(&format!("{name} = {text}")).map_err(|error| match error {
                    JobError::Format { reason } => refused(name, reason.lines().last().unwrap_or_default()),
                    other => other,
                })?;
                within(alone.to_table()?, path).and_then(|mut table| table.remove(last))
            }
        };
        let mut table = self.to_table()?;
        let mut at = &mut table;
        for part in path.split_terminator('.') {
            let inner = at.entry(part).or_insert_with(|| Value::Table(Table::new()));
            let Value::Table(inner) = inner else { return Err(refused(name, "it lies below a value")) };
            at = inner;
        }
        match given {
            Some(value) => at.insert(last.into(), value),
            None => at.remove(last),
        };
        *self = Self::from_toml(&written(table)?)?;
        Ok(())
    }
}

/// The tables before the last part of a key, and that part.
fn split(name: &str) -> (&str, &str) {
    name.rsplit_once('.').unwrap_or(("", name))
}

/// The table at a path.
fn within(mut table: Table, path: &str) -> Option<Table> {
    for part in path.split_terminator('.') {
        let Some(Value::Table(inner)) = table.remove(part) else { return None };
        table = inner;
    }
    Some(table)
}

fn refused(name: &str, reason: &str) -> JobError {
    JobError::Key { name: name.into(), reason: reason.into() }
}
