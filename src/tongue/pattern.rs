//! An English text with holes, and whether a text is made by it.

use super::plain;

/// What may stand in a hole.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hole {
    /// `{}`: anything, said in the other language itself.
    Any,
    /// `{n}`: one number.
    Number,
    /// `{q}`: numbers with units, or a mark of a part: nothing that has a word in it.
    Plain,
    /// `{m}`: marks or figures in a row, "A1 to A4", "3, 5 and 9 mm"; as many as fit.
    Marks,
}

#[derive(Debug, Clone, PartialEq, Eq)]
enum Piece {
    Words(String),
    Hole(Hole),
}

/// A text with holes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pattern {
    pieces: Vec<Piece>,
}

impl Pattern {
    /// Reads `Drill {q} through {}`; other braces are words.
    pub fn new(text: &str) -> Self {
        let mut pieces = Vec::new();
        let mut words = String::new();
        let mut rest = text;
        while let Some(next) = rest.chars().next() {
            let holes = [
                ("{}", Hole::Any),
                ("{n}", Hole::Number),
                ("{q}", Hole::Plain),
                ("{m}", Hole::Marks),
            ];
            let hole = holes.iter().find_map(|(sign, hole)| Some((rest.strip_prefix(sign)?, hole)));
            if let Some((after, hole)) = hole {
                if !words.is_empty() {
                    pieces.push(Piece::Words(std::mem::take(&mut words)));
                }
                pieces.push(Piece::Hole(*hole));
                rest = after;
            } else {
                words.push(next);
                rest = &rest[next.len_utf8()..];
            }
        }
        if !words.is_empty() {
            pieces.push(Piece::Words(words));
        }
        Self { pieces }
    }

    /// How many holes it has.
    pub fn holes(&self) -> usize {
        self.pieces.iter().filter(|piece| matches!(piece, Piece::Hole(_))).count()
    }

    /// Characters that are words of its own: the more, the closer it fits.
    pub fn weight(&self) -> usize {
        let words = self.pieces.iter().map(|piece| match piece {
            Piece::Words(words) => words.chars().count(),
            Piece::Hole(_) => 0,
        });
        words.sum()
    }

    /// Holes that take anything: of two patterns with the same words the one with fewer is closer.
    pub fn open(&self) -> usize {
        self.pieces.iter().filter(|piece| **piece == Piece::Hole(Hole::Any)).count()
    }

    /// The words it begins with; none if it begins with a hole.
    pub fn opening(&self) -> &str {
        match self.pieces.first() {
            Some(Piece::Words(words)) => words,
            _ => "",
        }
    }

    /// What stands in its holes, if it makes the text; the first of several ways, holes kept short.
    pub fn holds<'a>(&self, text: &'a str) -> Option<Vec<&'a str>> {
        self.ways(text, 1).pop()
    }

    /// Ways in which it makes the text, at most so many: a hole may end at each space.
    pub fn ways<'a>(&self, text: &'a str, most: usize) -> Vec<Vec<&'a str>> {
        let mut ways = Vec::new();
        fits(&self.pieces, text, &mut Vec::new(), &mut ways, most);
        ways
    }
}

/// Adds the ways in which the pieces make the text.
fn fits<'a>(
    pieces: &[Piece],
    text: &'a str,
    held: &mut Vec<&'a str>,
    ways: &mut Vec<Vec<&'a str>>,
    most: usize,
) {
    match pieces {
        [] if text.is_empty() => ways.push(held.clone()),
        [] => {}
        [Piece::Words(words), rest @ ..] => {
            if let Some(after) = text.strip_prefix(words.as_str()) {
                fits(rest, after, held, ways, most);
            }
        }
        [Piece::Hole(hole)] => {
            if takes(*hole, text) {
                held.push(text);
                ways.push(held.clone());
                held.pop();
            }
        }
        [Piece::Hole(hole), rest @ ..] => {
            let Some(Piece::Words(next)) = rest.first() else {
                // Two holes side by side can't be told apart.
                return;
            };
            let mut ends: Vec<usize> =
                text.match_indices(next.as_str()).map(|(end, _)| end).collect();
            if *hole == Hole::Marks {
                ends.reverse();
            }
            for end in ends {
                if ways.len() >= most {
                    break;
                }
                if takes(*hole, &text[..end]) {
                    held.push(&text[..end]);
                    fits(rest, &text[end..], held, ways, most);
                    held.pop();
                }
            }
        }
    }
}

fn takes(hole: Hole, text: &str) -> bool {
    let trimmed = text.trim();
    if trimmed.is_empty() {
        return false;
    }
    match hole {
        Hole::Any => true,
        Hole::Number => plain::is_number(trimmed),
        Hole::Plain => plain::is_plain(trimmed),
        Hole::Marks => {
            let joins = |word: &str| matches!(word, "and" | "to");
            let words = || trimmed.split([' ', '\u{a0}']);
            let ends = [words().next(), words().next_back()];
            ends.into_iter().flatten().all(|word| !joins(word))
                && words().all(|word| joins(word) || plain::is_plain(word))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn holes_take_what_their_kind_says() {
        let pattern = Pattern::new("Drill {q} in {}, {n} times.");
        let held = pattern.holds("Drill 7.1 mm in the left rail, back, 4 times.");
        assert_eq!(held, Some(vec!["7.1 mm", "the left rail, back", "4"]));
        assert_eq!(pattern.holds("Drill a hole in the rail, 4 times."), None);
        assert_eq!(pattern.holds("Drill 7.1 mm in the rail, many times."), None);
        assert_eq!(pattern.holes(), 3);
    }

    #[test]
    fn a_hole_may_end_at_each_space() {
        let ways = Pattern::new("Cut {} {} now").ways("Cut side tube C1 now", 9);
        assert_eq!(ways, [["side", "tube C1"], ["side tube", "C1"]]);
    }

    #[test]
    fn marks_in_a_row_are_one_hole() {
        let pattern = Pattern::new("Cut {} {m} to {} long.");
        let held = |text| pattern.holds(text);
        assert_eq!(
            held("Cut side tube A1 to A4 to 20 mm, mitred, long."),
            Some(vec!["side tube", "A1 to A4", "20 mm, mitred,"])
        );
        assert_eq!(
            held("Cut bar A1, A3 and A4 to 9 mm long."),
            Some(vec!["bar", "A1, A3 and A4", "9 mm"])
        );
        assert_eq!(held("Cut bar to length long."), None);
    }

    #[test]
    fn other_braces_are_words() {
        let pattern = Pattern::new("a {x} {");
        assert_eq!((pattern.holes(), pattern.holds("a {x} {")), (0, Some(vec![])));
    }
}
