//! Objects read from bytes that may be anything.
//!
//! Reading never panics, never goes deeper than [`DEEPEST`] and never makes more than its budget of
//! objects; whatever breaks a rule of the syntax gives `None`.

use lopdf::{Dictionary, Object, StringFormat};

/// Deepest nesting of arrays and dictionaries; files in the wild stay below ten.
const DEEPEST: usize = 40;

/// A place in bytes, moving on as objects are read.
pub(super) struct Lexer<'a> {
    bytes: &'a [u8],
    /// Index of the next byte; never past the end.
    pub at: usize,
    /// Objects that may still be made.
    budget: &'a mut usize,
}

fn is_space(byte: u8) -> bool {
    matches!(byte, 0 | b'\t' | b'\n' | 12 | b'\r' | b' ')
}

fn is_delimiter(byte: u8) -> bool {
    matches!(byte, b'(' | b')' | b'<' | b'>' | b'[' | b']' | b'{' | b'}' | b'/' | b'%')
}

fn hex(byte: u8) -> Option<u8> {
    char::from(byte).to_digit(16).map(|d| d as u8)
}

impl<'a> Lexer<'a> {
    /// From index `at` of `bytes` on, with so many objects to make.
    pub fn new(bytes: &'a [u8], at: usize, budget: &'a mut usize) -> Self {
        Self { bytes, at: at.min(bytes.len()), budget }
    }

    fn peek(&self) -> Option<u8> {
        self.bytes.get(self.at).copied()
    }

    fn rest(&self) -> &'a [u8] {
        self.bytes.get(self.at..).unwrap_or_default()
    }

    /// Passes over white space and comments.
    pub fn skip_space(&mut self) {
        while let Some(byte) = self.peek() {
            if byte == b'%' {
                let rest = self.rest();
                let line = rest.iter().position(|b| matches!(b, b'\n' | b'\r'));
                self.at += line.unwrap_or(rest.len());
            } else if is_space(byte) {
                self.at += 1;
            } else {
                return;
            }
        }
    }

    /// Passes over a keyword, if it stands here.
    pub fn keyword(&mut self, word: &[u8]) -> Option<()> {
        self.skip_space();
        self.rest().starts_with(word).then(|| self.at += word.len())
    }

    /// A whole number without sign.
    pub fn count(&mut self) -> Option<usize> {
        self.skip_space();
        let digits = self.rest().iter().take_while(|b| b.is_ascii_digit()).count();
        let text = std::str::from_utf8(self.rest().get(..digits)?).ok()?;
        let value = text.parse().ok()?;
        self.at += digits;
        Some(value)
    }

    /// `N G obj`; gives the number of the object.
    pub fn object_head(&mut self) -> Option<usize> {
        let number = self.count()?;
        self.count()?;
        self.keyword(b"obj")?;
        Some(number)
    }

    /// Any object but a stream.
    pub fn object(&mut self) -> Option<Object> {
        self.nested(0)
    }

    fn nested(&mut self, depth: usize) -> Option<Object> {
        *self.budget = self.budget.checked_sub(1)?;
        if depth > DEEPEST {
            return None;
        }
        self.skip_space();
        match self.peek()? {
            b'/' => self.name().map(Object::Name),
            b'(' => self.literal().map(|s| Object::String(s, StringFormat::Literal)),
            b'[' => {
                self.at += 1;
                let mut items = Vec::new();
                loop {
                    self.skip_space();
                    if self.peek()? == b']' {
                        self.at += 1;
                        return Some(Object::Array(items));
                    }
                    items.push(self.nested(depth + 1)?);
                }
            }
            b'<' if self.rest().starts_with(b"<<") => {
                self.at += 2;
                let mut dictionary = Dictionary::new();
                loop {
                    self.skip_space();
                    if self.rest().starts_with(b">>") {
                        self.at += 2;
                        return Some(Object::Dictionary(dictionary));
                    }
                    let key = self.name()?;
                    dictionary.set(key, self.nested(depth + 1)?);
                }
            }
            b'<' => self.hexadecimal().map(|s| Object::String(s, StringFormat::Hexadecimal)),
            b't' => self.keyword(b"true").map(|()| Object::Boolean(true)),
            b'f' => self.keyword(b"false").map(|()| Object::Boolean(false)),
            b'n' => self.keyword(b"null").map(|()| Object::Null),
            _ => self.number(),
        }
    }

    /// A number, or a reference if two whole numbers and an `R` stand here.
    fn number(&mut self) -> Option<Object> {
        let length = self
            .rest()
            .iter()
            .take_while(|b| b.is_ascii_digit() || matches!(b, b'+' | b'-' | b'.'))
            .count();
        let text = std::str::from_utf8(self.rest().get(..length)?).ok()?;
        let whole: Result<i64, _> = text.parse();
        let Ok(whole) = whole else {
            let value = text.parse().ok()?;
            self.at += length;
            return Some(Object::Real(value));
        };
        self.at += length;
        let after = self.at;
        if let (Ok(number), Some(generation)) = (u32::try_from(whole), self.count())
            && self.keyword(b"R").is_some()
            && self.peek().is_none_or(|b| is_space(b) || is_delimiter(b))
        {
            return Some(Object::Reference((number, u16::try_from(generation).ok()?)));
        }
        self.at = after;
        Some(Object::Integer(whole))
    }

    fn name(&mut self) -> Option<Vec<u8>> {
        self.keyword(b"/")?;
        let mut name = Vec::new();
        while let Some(byte) = self.peek() {
            if is_space(byte) || is_delimiter(byte) {
                break;
            }
            self.at += 1;
            let pair = (self.bytes.get(self.at), self.bytes.get(self.at + 1));
            match (byte, pair) {
                (b'#', (Some(&a), Some(&b))) => match (hex(a), hex(b)) {
                    (Some(a), Some(b)) => {
                        name.push(a * 16 + b);
                        self.at += 2;
                    }
                    _ => name.push(byte),
                },
                _ => name.push(byte),
            }
        }
        Some(name)
    }

    fn literal(&mut self) -> Option<Vec<u8>> {
        self.at += 1;
        let mut text = Vec::new();
        let mut open = 1usize;
        loop {
            let byte = self.peek()?;
            self.at += 1;
            match byte {
                b'(' => open += 1,
                b')' => {
                    open -= 1;
                    if open == 0 {
                        return Some(text);
                    }
                }
                b'\\' => {
                    self.escaped(&mut text)?;
                    continue;
                }
                _ => {}
            }
            text.push(byte);
        }
    }

    /// What follows a backslash (ISO 32000-1, table 3).
    fn escaped(&mut self, text: &mut Vec<u8>) -> Option<()> {
        let byte = self.peek()?;
        self.at += 1;
        match byte {
            b'n' => text.push(b'\n'),
            b'r' => text.push(b'\r'),
            b't' => text.push(b'\t'),
            b'b' => text.push(8),
            b'f' => text.push(12),
            b'0'..=b'7' => {
                let mut value = u32::from(byte - b'0');
                for _ in 0..2 {
                    match self.peek() {
                        Some(digit @ b'0'..=b'7') => {
                            value = value * 8 + u32::from(digit - b'0');
                            self.at += 1;
                        }
                        _ => break,
                    }
                }
                text.push((value & 0xFF) as u8);
            }
            b'\r' => {
                if self.peek() == Some(b'\n') {
                    self.at += 1;
                }
            }
            b'\n' => {}
            _ => text.push(byte),
        }
        Some(())
    }

    fn hexadecimal(&mut self) -> Option<Vec<u8>> {
        self.at += 1;
        let mut digits = Vec::new();
        loop {
            let byte = self.peek()?;
            self.at += 1;
            match byte {
                b'>' => break,
                _ if is_space(byte) => {}
                _ => digits.push(hex(byte)?),
            }
        }
        Some(digits.chunks(2).map(|p| p[0] * 16 + p.get(1).copied().unwrap_or(0)).collect())
    }
}
