//! Values made by published libraries; `generate.py` beside this file tells how.

/// The rows of a table that [`rows_by`] finds, made by `generate.py`.
pub fn rows(table: &'static str) -> Vec<Vec<&'static str>> {
    rows_by(table, "generate.py")
}

/// The rows of a table under the line that tells what made it and the line of headings.
pub fn rows_by(table: &'static str, maker: &str) -> Vec<Vec<&'static str>> {
    let mut lines = table.lines();
    let made = lines.next().expect("a first line");
    assert!(made.starts_with(&format!("# made by {maker}: ")), "the table tells its makers");
    let width = lines.next().expect("a line of headings").split(',').count();
    let rows: Vec<Vec<&str>> = lines.map(|line| line.split(',').collect()).collect();
    assert!(!rows.is_empty() && rows.iter().all(|row| row.len() == width), "the table is whole");
    rows
}

/// A cell as a number.
pub fn number(cell: &str) -> f64 {
    cell.parse().expect("the generator writes numbers")
}

/// Whether two numbers agree to a part of the greater, or both are next to nothing.
pub fn near(ours: f64, theirs: f64, part: f64, least: f64) -> bool {
    (ours - theirs).abs() <= (part * theirs.abs()).max(least)
}
