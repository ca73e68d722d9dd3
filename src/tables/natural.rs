//! The order in which a person lists names: numbers in them count as numbers, case does not count.

use std::cmp::Ordering;

/// Orders `M8` before `M10`. Equal only for names that differ in nothing but case.
pub(super) fn compare(left: &str, right: &str) -> Ordering {
    let (a, b) = (left.as_bytes(), right.as_bytes());
    let (mut i, mut j) = (0, 0);
    while i < a.len() && j < b.len() {
        if a[i].is_ascii_digit() && b[j].is_ascii_digit() {
            let (m, n) = (digits(a, i), digits(b, j));
            let (x, y) = (without_zeros(&a[i..m]), without_zeros(&b[j..n]));
            let order = x.len().cmp(&y.len()).then_with(|| x.cmp(y));
            if order != Ordering::Equal {
                return order;
            }
            (i, j) = (m, n);
        } else {
            let order = a[i].to_ascii_lowercase().cmp(&b[j].to_ascii_lowercase());
            if order != Ordering::Equal {
                return order;
            }
            (i, j) = (i + 1, j + 1);
        }
    }
    // `1` and `01` have run equal so far but are two names.
    (a.len() - i)
        .cmp(&(b.len() - j))
        .then_with(|| left.to_ascii_lowercase().cmp(&right.to_ascii_lowercase()))
}

/// Where the digits that start at `from` end.
fn digits(text: &[u8], from: usize) -> usize {
    text[from..].iter().position(|byte| !byte.is_ascii_digit()).map_or(text.len(), |n| from + n)
}

fn without_zeros(digits: &[u8]) -> &[u8] {
    let zeros = digits.iter().take_while(|byte| **byte == b'0').count();
    &digits[zeros..]
}

#[cfg(test)]
mod tests {
    use super::compare;
    use std::cmp::Ordering;

    #[test]
    fn numbers_in_names_count_as_numbers() {
        let mut names = ["M10", "m8", "M3", "steel-flat-100x3", "steel-flat-90x3", "1/4-20"];
        names.sort_by(|a, b| compare(a, b));
        assert_eq!(names, ["1/4-20", "M3", "m8", "M10", "steel-flat-90x3", "steel-flat-100x3"]);
    }

    #[test]
    fn only_case_is_overlooked() {
        assert_eq!(compare("RIVET-nut-m6", "rivet-nut-M6"), Ordering::Equal);
        assert_ne!(compare("a1", "a01"), Ordering::Equal);
        assert_ne!(compare("a", "ab"), Ordering::Equal);
    }
}
