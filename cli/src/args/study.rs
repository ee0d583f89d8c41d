use std::path::PathBuf;

use clap::Args;

/// A study and where its results go.
#[derive(Debug, Args)]
pub(crate) struct StudyArguments {
    /// Study file in TOML; samples/study.toml shows the keys.
    pub(crate) study: PathBuf,
    /// Folder for results; it is created if missing.
    #[arg(long, short, value_name = "DIR")]
    pub(crate) out: PathBuf,
    /// Continue with what is in the folder: finished cases of all shards are kept.
    #[arg(long)]
    pub(crate) resume: bool,
    /// Run the K-th of N parts of the cases, for several machines that share the folder.
    #[arg(long, value_name = "K/N", value_parser = shard, default_value = "1/1")]
    pub(crate) shard: Shard,
    /// Read files that the study or its job names from any folder, not only from its own.
    #[arg(long)]
    pub(crate) any_folder: bool,
    /// Print the effects as JSON.
    #[arg(long)]
    pub(crate) json: bool,
}

/// One part of the cases of a study.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Shard {
    /// From 1.
    pub(crate) number: usize,
    pub(crate) count: usize,
}

fn shard(text: &str) -> Result<Shard, String> {
    let read = text.split_once('/').and_then(|(k, n)| Some((k.trim().parse().ok()?, n.trim().parse().ok()?)));
    match read {
        Some((number, count)) if number >= 1 && number <= count && count <= 10_000 => Ok(Shard { number, count }),
        _ => Err("expected K/N, as 2/8".into()),
    }
}
