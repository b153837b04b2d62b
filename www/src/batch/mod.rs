//! Batch work without a browser: a folder of basses becomes printed sheets, scores, MIDI files,
//! links and, on request, sound. A file that cannot be read is told and does not stop the rest.

mod options;
mod piece;

use std::collections::HashSet;
use std::ffi::OsStr;
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail, ensure};

pub(crate) use options::{BatchOptions, HELP, read};

/// The name of the list of links.
const LINKS: &str = "links.txt";

/// Turns every file of the folder that `options` name.
pub(crate) fn run(options: &BatchOptions) -> Result<()> {
    let files = files(&options.folder)?;
    ensure!(!files.is_empty(), "There are no files in {}.", options.folder.display());
    let out = options.out.clone().unwrap_or_else(|| options.folder.join("sheets"));
    fs::create_dir_all(&out).with_context(|| format!("{} cannot be made", out.display()))?;

    let mut taken = HashSet::from([LINKS.to_string()]);
    let mut links = String::new();
    let (mut done, mut failed) = (0, 0);
    for file in files {
        let name = file.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let stem = free_stem(&file, &mut taken);
        match piece::turn(&file, &out, &stem, options) {
            Ok(turned) => {
                println!("{name}: {}", turned.summary);
                for remark in turned.remarks {
                    println!("    {remark}");
                }
                let _ = writeln!(links, "{name}\t{}", turned.link);
                done += 1;
            }
            Err(error) => {
                eprintln!("{name}: {error:#}");
                failed += 1;
            }
        }
    }
    if done > 0 {
        let file = out.join(LINKS);
        fs::write(&file, links).with_context(|| format!("{} cannot be written", file.display()))?;
    }
    println!("{done} of {} files turned, into {}", done + failed, out.display());
    match failed {
        0 => Ok(()),
        1 => bail!("One file could not be turned; why is said above."),
        _ => bail!("{failed} files could not be turned; why is said above."),
    }
}

/// The files of a folder by name. What is hidden and what are folders is passed over.
fn files(folder: &Path) -> Result<Vec<PathBuf>> {
    let entries = fs::read_dir(folder)
        .with_context(|| format!("The folder {} cannot be read", folder.display()))?;
    let mut files = Vec::new();
    for entry in entries {
        let path = entry.with_context(|| format!("{} cannot be read", folder.display()))?.path();
        let hidden = path.file_name().is_some_and(|name| name.to_string_lossy().starts_with('.'));
        if path.is_file() && !hidden {
            files.push(path);
        }
    }
    files.sort();
    Ok(files)
}

/// The name of a file without its ending, with a number where another file has it too.
fn free_stem(file: &Path, taken: &mut HashSet<String>) -> String {
    let stem = file.file_stem().unwrap_or(OsStr::new("bass")).to_string_lossy().into_owned();
    let numbered = (2..).map(|number| format!("{stem}-{number}"));
    let mut names = std::iter::once(stem.clone()).chain(numbered);
    // Systems that do not tell capitals apart would write one over the other.
    names.find(|name| taken.insert(name.to_lowercase())).unwrap_or(stem)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_of_one_name_do_not_write_over_each_other() {
        let mut taken = HashSet::new();
        let mut stem = |name: &str| free_stem(Path::new(name), &mut taken);
        assert_eq!(stem("a/bass.txt"), "bass");
        assert_eq!(stem("a/Bass.mid"), "Bass-2");
        assert_eq!(stem("a/bass.xml"), "bass-3");
        assert_eq!(stem("a/other"), "other");
    }
}
