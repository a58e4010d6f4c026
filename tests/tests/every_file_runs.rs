//! Every file of tests is named in the program of its package: one that is not would never run, and nobody would see.
#![allow(clippy::unwrap_used)]

use std::fs;
use std::path::{Path, PathBuf};

/// The folders whose tests are one program each, from the top of the repository.
const PROGRAMS: [&str; 3] = ["crates/kingvalve/tests", "examples/tests", "tests/tests"];

/// Files that the folder's `main.rs` or `mod.rs` does not name, and those of its modules' folders.
fn unnamed(folder: &Path, entry: &str) -> Vec<PathBuf> {
    let named = fs::read_to_string(folder.join(entry)).unwrap();
    let named: Vec<_> =
        named.lines().filter_map(|line| line.trim().strip_prefix("mod ")?.strip_suffix(';')).collect();
    let mut left = Vec::new();
    for path in fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()) {
        let is_module = path.join("mod.rs").exists();
        let is_file = path.extension().is_some_and(|extension| extension == "rs") && !path.ends_with(entry);
        let name = path.file_stem().unwrap().to_str().unwrap();
        if (is_module || is_file) && !named.contains(&name) {
            left.push(path.clone());
        }
        if is_module {
            left.extend(unnamed(&path, "mod.rs"));
        }
    }
    left
}

#[test]
fn every_file_of_tests_is_named() {
    let top = Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap();
    for program in PROGRAMS {
        assert_eq!(unnamed(&top.join(program), "main.rs"), Vec::<PathBuf>::new(), "{program}/main.rs");
    }
}
