use layload_core::Record;
use maud::{Markup, html};

/// What is needed to run the same check again.
#[derive(Debug, Clone)]
pub(crate) struct Inputs {
    /// Name of the mesh file, without its folder.
    pub(crate) mesh_name: String,
    /// Bytes in it.
    pub(crate) mesh_bytes: usize,
    /// Their check sum, CRC-32 as in ISO 3309.
    pub(crate) mesh_sum: u32,
    /// Name of the material family or of its card file.
    pub(crate) material: String,
    /// The job as it was checked: file and options together.
    pub(crate) job: String,
    /// Texts of the files that it names, with their names.
    pub(crate) files: Vec<(String, String)>,
}

/// What to save and what to type.
pub(super) fn section(record: &Record, inputs: &Inputs) -> Markup {
    html! {
        section id="again" {
            h2 { "To run it again" }
            p {
                "Mesh: " (inputs.mesh_name) ", " (inputs.mesh_bytes) " bytes, check sum " code { (format!("{:08x}", inputs.mesh_sum)) }
                " (CRC-32). Save the job below beside it as " code { "job.toml" } " and type, with layload " (record.report.program_version) ":"
            }
            (text("Command", &format!("layload check {} --job job.toml", inputs.mesh_name)))
            (text("job.toml", &inputs.job))
            @for (name, content) in &inputs.files { (text(name, content)) }
        }
    }
}

fn text(name: &str, content: &str) -> Markup {
    html! {
        h3 { (name) }
        pre.job[content.lines().count() > 12] tabindex="0" role="region" aria-label=(name) { (content) }
    }
}
