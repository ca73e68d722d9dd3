//! The two things about zlib streams (RFC 1950) that the libraries beneath leave to their callers.

/// The checksum at the end of a zlib stream (RFC 1950, 8.2).
pub(super) fn adler32(bytes: &[u8]) -> u32 {
    let (mut a, mut b) = (1u32, 0u32);
    // 5552 is the longest stretch whose sums stay below 2^32.
    for stretch in bytes.chunks(5552) {
        for &byte in stretch {
            a += u32::from(byte);
            b += a;
        }
        a %= 65521;
        b %= 65521;
    }
    (b << 16) | a
}

/// A zlib stream that holds the bytes as they are, for content that packing would not make shorter: it
/// still carries a checksum (RFC 1951, 3.2.4 for the blocks).
pub(super) fn stored(bytes: &[u8]) -> Vec<u8> {
    let mut stream = vec![0x78, 0x01];
    let mut blocks = bytes.chunks(usize::from(u16::MAX)).peekable();
    if blocks.peek().is_none() {
        stream.extend([1, 0, 0, 0xFF, 0xFF]);
    }
    while let Some(block) = blocks.next() {
        stream.push(u8::from(blocks.peek().is_none()));
        let length = block.len() as u16;
        stream.extend(length.to_le_bytes());
        stream.extend((!length).to_le_bytes());
        stream.extend(block);
    }
    stream.extend(adler32(bytes).to_be_bytes());
    stream
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn checksum_is_that_of_the_standard() {
        // Values of zlib's own adler32, the reference implementation of RFC 1950.
        assert_eq!(adler32(b"abc"), 0x024D_0127);
        assert_eq!(adler32(&[255; 10_000]), 0xB623_EB2B);
        assert_eq!(adler32(b""), 1);
    }

    #[test]
    fn stored_bytes_unpack_to_themselves() {
        for length in [0, 1, 65_535, 65_536, 200_000] {
            let bytes: Vec<u8> = (0..length).map(|n: u32| (n % 251) as u8).collect();
            let dictionary = lopdf::dictionary! { "Filter" => "FlateDecode" };
            let stream = lopdf::Stream::new(dictionary, stored(&bytes));
            assert!(stream.decompressed_content().expect("zlib reads it") == bytes);
        }
    }
}
