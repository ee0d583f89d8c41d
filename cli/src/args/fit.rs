use std::path::PathBuf;

use clap::Args;

/// Tests of coupons, and the card to make.
#[derive(Debug, Args)]
pub(crate) struct FitArguments {
    /// Table of tests, as .csv; samples/coupons.csv shows the columns.
    pub(crate) coupons: PathBuf,
    /// Card to write, as .toml.
    #[arg(long, short, value_name = "FILE")]
    pub(crate) out: PathBuf,
    /// Card that gives what was not tested: a family or a card file.
    #[arg(long, value_name = "CARD", default_value = "PA12-CF15")]
    pub(crate) base: String,
    /// Name of the new card; default: that of the base with `coupons`.
    #[arg(long, value_name = "NAME")]
    pub(crate) name: Option<String>,
    /// Day of the tests; default: the latest in the table.
    #[arg(long, value_name = "DAY")]
    pub(crate) date: Option<String>,
    /// Draw the fitted lines beside the tests, as .svg; a number is added to the name where there are several.
    #[arg(long, value_name = "FILE", help_heading = "Files")]
    pub(crate) svg: Option<PathBuf>,
    /// Replace files that are there already.
    #[arg(long, help_heading = "Files")]
    pub(crate) overwrite: bool,
    /// Print the whole fit as JSON.
    #[arg(long)]
    pub(crate) json: bool,
}
