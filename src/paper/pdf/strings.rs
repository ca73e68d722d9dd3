//! Strings of codes, written short.
//!
//! printpdf writes every code as four hexadecimal digits. Two plain bytes say the same, pack in half
//! the time and come out a little shorter.

/// The content with the strings of its text-showing operators in literal form.
///
/// Goes by what printpdf writes: one operator a line, strings in hexadecimal form only. Dictionaries of
/// marked content stay as they are.
pub(super) fn literal(content: &[u8]) -> Vec<u8> {
    let mut out = Vec::with_capacity(content.len());
    for (number, line) in content.split(|&b| b == b'\n').enumerate() {
        if number > 0 {
            out.push(b'\n');
        }
        if !line.ends_with(b" TJ") && !line.ends_with(b" Tj") {
            out.extend(line);
            continue;
        }
        let mut rest = line;
        while let Some(at) = rest.iter().position(|&b| b == b'<') {
            let (before, string) = rest.split_at(at);
            let Some(end) = string.iter().position(|&b| b == b'>') else { break };
            out.extend(before);
            out.push(b'(');
            for pair in string[1..end].chunks(2) {
                let digit = |i: usize| pair.get(i).map_or(0, |&d| value(d));
                put(&mut out, digit(0) * 16 + digit(1));
            }
            out.push(b')');
            rest = &string[end + 1..];
        }
        out.extend(rest);
    }
    out
}

fn value(digit: u8) -> u8 {
    char::from(digit).to_digit(16).map_or(0, |v| v as u8)
}

/// One byte of a literal string (ISO 32000-1, 7.3.4.2). A bare carriage return would be read as a line
/// feed.
fn put(out: &mut Vec<u8>, byte: u8) {
    match byte {
        b'(' | b')' | b'\\' => out.extend([b'\\', byte]),
        b'\r' => out.extend(*b"\\r"),
        _ => out.push(byte),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use lopdf::content::Content;

    #[test]
    fn every_code_reads_as_before() {
        let codes: Vec<String> = (0..=255u16).map(|n| format!("{:04X}", n * 257)).collect();
        let digits = codes.concat();
        let line = format!(
            "/Span <</ActualText <FEFF0028>>> BDC\n[<{digits}> -10 <000D>] TJ\n<0029> Tj\nEMC"
        );
        let short = literal(line.as_bytes());
        assert!(short.len() < line.len() * 2 / 3);
        let [before, after] = [line.as_bytes(), &short].map(|c| {
            let operations = Content::decode(c).expect("content").operations;
            let bytes = |o: &lopdf::Object| match o {
                lopdf::Object::String(bytes, _) => format!("{bytes:?}"),
                lopdf::Object::Array(items) => items
                    .iter()
                    .map(|i| i.as_str().map_or_else(|_| format!("{i:?}"), |s| format!("{s:?}")))
                    .collect(),
                other => format!("{other:?}"),
            };
            operations
                .iter()
                .map(|o| (o.operator.clone(), o.operands.iter().map(bytes).collect::<String>()))
                .collect::<Vec<_>>()
        });
        assert_eq!(before, after);
        assert_eq!(after.len(), 4);
    }
}
