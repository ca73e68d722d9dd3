//! A content stream in the making: operands, then the operator, one operator a line (ISO 32000-1, 7.8.2).
//!
//! Written straight to bytes. A list of operations that is turned to text afterwards took five times as
//! long and, for a packet of 87 sheets, 30 MB.

/// Operators of one page.
#[derive(Default)]
pub(super) struct Operators(Vec<u8>);

impl Operators {
    /// A number given in thousandths, with no more digits than it needs.
    pub fn thousandths(&mut self, value: i64) -> &mut Self {
        put_thousandths(&mut self.0, value);
        self.space()
    }

    /// A whole number.
    pub fn integer(&mut self, value: i64) -> &mut Self {
        put_integer(&mut self.0, value);
        self.space()
    }

    /// A whole number that other signs come close after.
    pub fn number(&mut self, value: i64) -> &mut Self {
        put_integer(&mut self.0, value);
        self
    }

    /// Lengths in thousandths as an array.
    pub fn dashes(&mut self, lengths: impl Iterator<Item = i64>) -> &mut Self {
        self.0.push(b'[');
        for (number, length) in lengths.enumerate() {
            if number > 0 {
                self.0.push(b' ');
            }
            put_thousandths(&mut self.0, length);
        }
        self.0.push(b']');
        self.space()
    }

    /// A name; only letters and digits are given here.
    pub fn name(&mut self, name: &str) -> &mut Self {
        self.0.push(b'/');
        self.text(name).space()
    }

    /// Operands as they are to stand in the file.
    pub fn text(&mut self, operands: &str) -> &mut Self {
        self.0.extend(operands.as_bytes());
        self
    }

    /// Whole operands of a text-showing operator.
    pub fn bytes(&mut self, operands: &[u8]) -> &mut Self {
        self.0.extend(operands);
        self
    }

    /// Bytes as a string in hexadecimal form.
    pub fn hexadecimal(&mut self, bytes: &[u8]) -> &mut Self {
        const DIGITS: &[u8; 16] = b"0123456789ABCDEF";
        self.0.push(b'<');
        for &byte in bytes {
            self.0.extend([DIGITS[usize::from(byte >> 4)], DIGITS[usize::from(byte & 15)]]);
        }
        self.0.push(b'>');
        self
    }

    fn space(&mut self) -> &mut Self {
        self.0.push(b' ');
        self
    }

    /// Ends the operation.
    pub fn operator(&mut self, name: &str) {
        self.0.extend(name.as_bytes());
        self.0.push(b'\n');
    }

    /// The content.
    pub fn finish(mut self) -> Vec<u8> {
        self.0.pop();
        self.0
    }
}

/// A whole number.
pub(super) fn put_integer(out: &mut Vec<u8>, value: i64) {
    if value < 0 {
        out.push(b'-');
    }
    let start = out.len();
    let mut rest = value.unsigned_abs();
    loop {
        out.push(b'0' + (rest % 10) as u8);
        rest /= 10;
        if rest == 0 {
            break;
        }
    }
    out[start..].reverse();
}

/// A number given in thousandths, with no more digits than it needs.
pub(super) fn put_thousandths(out: &mut Vec<u8>, value: i64) {
    if (-999..0).contains(&value) {
        out.push(b'-');
    }
    put_integer(out, value / 1000);
    let part = value.unsigned_abs() % 1000;
    if part > 0 {
        out.push(b'.');
        let digits = [part / 100, part / 10 % 10, part % 10].map(|d| b'0' + d as u8);
        let length = digits.iter().rposition(|&d| d != b'0').map_or(0, |at| at + 1);
        out.extend(&digits[..length]);
    }
}

/// Codes and movements that make one showing of text (ISO 32000-1, 9.4.3).
#[derive(Default)]
pub(super) struct Shown {
    array: Vec<u8>,
    moves: bool,
    in_string: bool,
}

impl Shown {
    /// Shows a code of one byte (a short one) or two.
    pub fn code(&mut self, code: u16, short: bool) {
        if !self.in_string {
            self.in_string = true;
            self.array.push(b'(');
        }
        for &byte in &code.to_be_bytes()[usize::from(short)..] {
            put_in_string(&mut self.array, byte);
        }
    }

    /// Moves the pen back by thousandths of an em.
    pub fn back(&mut self, thousandths: i64) {
        self.end_string();
        put_integer(&mut self.array, thousandths);
        self.moves = true;
    }

    fn end_string(&mut self) {
        if std::mem::take(&mut self.in_string) {
            self.array.push(b')');
        }
    }

    /// Writes what was gathered, if anything, and starts anew.
    pub fn flush(&mut self, to: &mut Operators) {
        self.end_string();
        if self.array.is_empty() {
            return;
        }
        if std::mem::take(&mut self.moves) {
            to.text("[").bytes(&self.array).text("]").operator("TJ");
        } else {
            to.bytes(&self.array).operator("Tj");
        }
        self.array.clear();
    }
}

/// One byte of a literal string (ISO 32000-1, 7.3.4.2). A bare carriage return would be read as a line
/// feed.
pub(super) fn put_in_string(out: &mut Vec<u8>, byte: u8) {
    match byte {
        b'(' | b')' | b'\\' => out.extend([b'\\', byte]),
        b'\r' => out.extend(*b"\\r"),
        _ => out.push(byte),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use lopdf::Object;
    use lopdf::content::Content;

    fn read(operators: Operators) -> Vec<lopdf::content::Operation> {
        Content::decode(&operators.finish()).expect("content").operations
    }

    #[test]
    fn numbers_have_no_digit_too_many() {
        let print = |value| {
            let mut out = Vec::new();
            put_thousandths(&mut out, value);
            String::from_utf8(out).expect("digits")
        };
        assert_eq!(
            [0, 5, -5, 120, -1500, 595_276, 842_000].map(print),
            ["0", "0.005", "-0.005", "0.12", "-1.5", "595.276", "842"]
        );
    }

    #[test]
    fn every_code_is_read_back() {
        let codes: Vec<u16> = (0..=255).map(|n| n * 257).collect();
        let mut shown = Shown::default();
        for &code in &codes {
            shown.code(code, false);
        }
        let mut operators = Operators::default();
        shown.flush(&mut operators);
        shown.back(-12);
        shown.code(0x0028, false);
        shown.flush(&mut operators);
        shown.flush(&mut operators);
        (1..=255).for_each(|code| shown.code(code, true));
        shown.flush(&mut operators);
        let read = read(operators);
        assert_eq!(read.len(), 3);
        let short: Vec<u8> = (1..=255).collect();
        assert_eq!(read[2].operands[0].as_str().expect("string"), short);
        let bytes: Vec<u8> = codes.iter().flat_map(|c| c.to_be_bytes()).collect();
        assert_eq!(read[0].operator, "Tj");
        assert_eq!(read[0].operands[0].as_str().expect("string"), bytes);
        assert_eq!(read[1].operator, "TJ");
        let array = read[1].operands[0].as_array().expect("array");
        assert_eq!(array[0], Object::Integer(-12));
        assert_eq!(array[1].as_str().expect("string"), [0, 0x28]);
    }

    #[test]
    fn marks_are_read_back() {
        let mut operators = Operators::default();
        operators.name("Span").text("<</ActualText ").hexadecimal(&[0xFE, 0xFF, 0, 0x28]);
        operators.text(">> ").operator("BDC");
        let read = read(operators);
        let dictionary = read[0].operands[1].as_dict().expect("dictionary");
        let text = dictionary.get(b"ActualText").expect("text");
        assert_eq!(text.as_str().expect("string"), [0xFE, 0xFF, 0, 0x28]);
    }
}
