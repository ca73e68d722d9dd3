//! Pixels as PNG files.

use super::Fault;
use crate::page::model::PixelFormat;
use image::ImageEncoder;
use image::codecs::png::{CompressionType, FilterType, PngEncoder};

/// A PNG file of these pixels, rows from the top; with `dpi`, one that says how large it is on paper.
pub(super) fn encode(
    columns: u32,
    rows: u32,
    format: PixelFormat,
    pixels: &[u8],
    dpi: Option<f64>,
) -> Result<Vec<u8>, Fault> {
    let kind = match format {
        PixelFormat::Grey8 => image::ExtendedColorType::L8,
        PixelFormat::Rgb8 => image::ExtendedColorType::Rgb8,
    };
    let bits = u64::from(kind.bits_per_pixel());
    if u64::from(columns) * u64::from(rows) * bits / 8 != pixels.len() as u64 {
        return Err(Fault::Library("pixels and size of a picture differ".into()));
    }
    let mut file = Vec::new();
    PngEncoder::new_with_quality(&mut file, CompressionType::Default, FilterType::Adaptive)
        .write_image(pixels, columns, rows, kind)
        .map_err(|e| Fault::Library(e.to_string()))?;
    if let Some(dpi) = dpi {
        // Right after the header chunk, before any data (PNG 1.2, 4.3).
        file.splice(HEADER..HEADER, resolution(dpi));
    }
    Ok(file)
}

/// Length of the signature and the header chunk.
const HEADER: usize = 8 + 12 + 13;

/// The chunk that states pixels in a metre (PNG 1.2, 4.2.4.2).
fn resolution(dpi: f64) -> Vec<u8> {
    let per_metre = ((dpi / 0.0254).round() as u32).to_be_bytes();
    let mut named = b"pHYs".to_vec();
    named.extend(per_metre);
    named.extend(per_metre);
    named.push(1);
    let mut chunk = 9u32.to_be_bytes().to_vec();
    chunk.extend(&named);
    chunk.extend(crc32(&named).to_be_bytes());
    chunk
}

/// The check value of PNG chunks (PNG 1.2, appendix 15), bit by bit: there are thirteen bytes to go.
fn crc32(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(u32::MAX, |sum, &byte| {
        (0..8).fold(sum ^ u32::from(byte), |sum, _| {
            if sum & 1 == 1 { (sum >> 1) ^ 0xEDB8_8320 } else { sum >> 1 }
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn check_value_is_the_standards() {
        // The published check value of CRC-32/ISO-HDLC.
        assert_eq!(crc32(b"123456789"), 0xCBF4_3926);
    }
}
