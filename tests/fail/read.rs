//! Files that can't be read.

use crate::support::{build_files, differs, shown};
use rungsheet::source::Severity;

#[test]
fn each_file_is_refused_in_exactly_these_words() {
    let files = build_files("fail/read");
    assert!(files.len() >= 40, "the fixtures are there");
    let mut faults = Vec::new();
    for path in files {
        let (findings, shown) = shown(&path);
        if !findings.iter().any(|finding| finding.severity == Severity::Stop) {
            faults.push(format!("{} is not refused", path.display()));
        }
        faults.extend(differs(&path, &shown));
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
