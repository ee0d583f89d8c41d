/// What the reader of TOML says of a text, without the rest of lines so long that they would fill the screen.
pub(crate) fn told_of_toml(error: &toml::de::Error) -> String {
    const LONGEST: usize = 200;
    let told = error.to_string();
    let short = told.trim_end().lines().map(|line| match line.char_indices().nth(LONGEST) {
        Some((end, _)) => format!("{} ...", &line[..end]),
        None => line.into(),
    });
    short.collect::<Vec<String>>().join("\n")
}
