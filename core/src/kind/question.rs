use crate::job::Job;

/// A job with the texts of the files it names; `core` reads no files itself.
#[derive(Debug, Clone, Copy)]
pub struct Question<'a> {
    /// The job.
    pub job: &'a Job,
    /// Text of `material.card_file`.
    pub card_text: Option<&'a str>,
    /// Text of `engine.gas.pressure_table`.
    pub pressure_text: Option<&'a str>,
}
