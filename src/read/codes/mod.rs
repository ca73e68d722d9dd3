//! What the reader can find, one code a file: the rule and the words of its findings.
//!
//! Chapters: `F` file and format, `N` names and choices, `U` units and values.

pub(super) mod both_ends_alike;
pub(super) mod comma;
pub(super) mod empty_file;
pub(super) mod empty_text;
pub(super) mod file_too_large;
pub(super) mod key_twice;
pub(super) mod letter_without_face;
pub(super) mod mark_twice;
pub(super) mod missing_key;
pub(super) mod missing_table;
pub(super) mod missing_unit;
pub(super) mod more_findings;
pub(super) mod name_twice;
pub(super) mod nearly_an_end;
pub(super) mod nested_too_deep;
pub(super) mod no_format;
pub(super) mod not_finite;
pub(super) mod not_in_table;
pub(super) mod not_text;
pub(super) mod not_whole;
pub(super) mod nothing_or_less;
pub(super) mod nothing_to_build;
pub(super) mod one_or_the_other;
pub(super) mod out_of_range;
pub mod own_folder;
pub mod own_row;
pub mod own_rows;
pub(super) mod quantity;
pub(super) mod reading_twice;
pub(super) mod start_before_issue;
pub(super) mod syntax;
pub(super) mod text_too_long;
pub(super) mod times_out_of_order;
pub(super) mod too_few_readings;
pub(super) mod too_many;
pub(super) mod unfit_mark;
pub(super) mod unknown_choice;
pub(super) mod unknown_format;
pub(super) mod unknown_key;
pub(super) mod unknown_unit;
pub(super) mod unprintable_text;
pub(super) mod unreadable_currency;
pub(super) mod unreadable_date;
pub(super) mod unreadable_price;
pub(super) mod unreadable_quantity;
pub(super) mod unreadable_time;
pub(super) mod wrong_kind;
pub(super) mod wrong_shape;

use crate::source::Rule;

/// Every rule of the reader, by code.
pub static RULES: &[&Rule] = &[
    &not_text::RULE,
    &file_too_large::RULE,
    &empty_file::RULE,
    &syntax::RULE,
    &key_twice::RULE,
    &nested_too_deep::RULE,
    &no_format::RULE,
    &unknown_format::RULE,
    &unknown_key::RULE,
    &missing_key::RULE,
    &missing_table::RULE,
    &wrong_shape::RULE,
    &too_many::RULE,
    &text_too_long::RULE,
    &empty_text::RULE,
    &unprintable_text::RULE,
    &letter_without_face::RULE,
    &one_or_the_other::RULE,
    &nothing_to_build::RULE,
    &more_findings::RULE,
    &not_in_table::RULE,
    &unknown_choice::RULE,
    &mark_twice::RULE,
    &name_twice::RULE,
    &unfit_mark::RULE,
    &nearly_an_end::RULE,
    &unreadable_currency::RULE,
    &both_ends_alike::RULE,
    &own_row::RULE,
    &own_folder::RULE,
    &own_rows::RULE,
    &missing_unit::RULE,
    &wrong_kind::RULE,
    &unknown_unit::RULE,
    &comma::RULE,
    &not_finite::RULE,
    &nothing_or_less::RULE,
    &out_of_range::RULE,
    &unreadable_quantity::RULE,
    &not_whole::RULE,
    &unreadable_date::RULE,
    &unreadable_time::RULE,
    &times_out_of_order::RULE,
    &start_before_issue::RULE,
    &reading_twice::RULE,
    &too_few_readings::RULE,
    &unreadable_price::RULE,
];

/// No limit taken from outside: the fault lies in the writing alone.
const WRITING: &str =
    "no source: the file cannot be understood otherwise. Only the writing is checked";

/// The known word nearest to one that is not known, when most of its letters agree.
pub(super) fn nearest<'k>(
    written: &str,
    known: impl IntoIterator<Item = &'k str>,
) -> Option<&'k str> {
    if written.len() > 60 {
        return None;
    }
    let plain = |word: &str| word.to_lowercase().replace(['_', ' '], "-");
    let wanted = plain(written);
    known
        .into_iter()
        .map(|word| (strsim::osa_distance(&wanted, &plain(word)), word))
        .filter(|(steps, word)| *steps <= word.chars().count().min(wanted.chars().count()) / 2)
        .min_by_key(|(steps, _)| *steps)
        .map(|(_, word)| word)
}

/// `a`, `b` or `c`.
pub(super) fn or_list(words: &[&str]) -> String {
    match words {
        [] => String::new(),
        [one] => format!("`{one}`"),
        [rest @ .., last] => format!("`{}` or `{last}`", rest.join("`, `")),
    }
}

#[cfg(test)]
mod tests {
    use super::{nearest, or_list};

    #[test]
    fn a_word_is_near_when_most_letters_agree() {
        assert_eq!(nearest("lenght", ["length", "width"]), Some("length"));
        assert_eq!(nearest("voc_drift", ["voc", "voc-drift"]), Some("voc-drift"));
        assert_eq!(nearest("colour", ["x", "y"]), None);
        assert_eq!(nearest(&"a".repeat(100_000), ["length"]), None);
    }

    #[test]
    fn words_are_listed_as_one_would_say_them() {
        assert_eq!(or_list(&["left", "right", "front"]), "`left`, `right` or `front`");
    }
}
