//! The packet as a PDF file, tagged (PDF/UA-1) and fit for keeping (PDF/A-3b).
//!
//! printpdf makes the document with its pages. Their content is written straight to bytes (printpdf's
//! operations took three times as long and 16 MB more for a packet of 87 sheets), and what a tagged,
//! archival file needs besides is put in as lopdf objects.

mod codes;
mod content;
mod fonts;
mod icc;
mod metadata;
mod navigation;
mod operators;
mod pages;
mod save;
mod tags;

use super::Fault;
use crate::page::model::{Document, Image, Page, PixelFormat};
use codes::Codes;
use content::Pictures;
use fonts::{Packer, pack};
use lopdf::{Dictionary, Document as File, Object, Stream, dictionary};

/// Largest attachment; far above any build file, and what [`super::recover()`] takes out again.
pub(super) const LARGEST_ATTACHMENT: usize = 16 << 20;

/// Writes a document as a PDF file.
///
/// Equal documents give equal bytes: object numbers count from 1 in a fixed order, dates come from
/// the metadata, and the file's identifier is a hash of its content.
///
/// # Errors
/// [`Fault::Unsound`] if the document breaks a promise of [`crate::page::model`] (a tagged file could
/// then not be right), [`Fault::TooLarge`] for an attachment over 16 MiB, [`Fault::Font`] or
/// [`Fault::Library`] if a library beneath refuses.
pub fn pdf(document: &Document) -> Result<Vec<u8>, Fault> {
    let faults = document.faults();
    if !faults.is_empty() {
        return Err(Fault::Unsound(faults));
    }
    if let Some(attachment) = &document.attachment
        && attachment.bytes.len() > LARGEST_ATTACHMENT
    {
        return Err(Fault::TooLarge { what: "the attached file", limit: LARGEST_ATTACHMENT });
    }
    let codes = Codes::collect(document);
    let pictures = Pictures::collect(document);
    let contents = contents(document, &codes, &pictures)?;
    let mut file = pages::made(document);
    let pages: Vec<_> = file.page_iter().collect();
    let links = navigation::links(&mut file, document, &pages);
    let tree = tags::Tree::new(&mut file, document, &pages, &links);
    assemble(&mut file, document, (&codes, &pictures), contents, &tree)?;
    let mut bytes = save::save(file, |to| tree.write(|number, object| to.add(number, object)))?;
    metadata::seal(&mut bytes);
    Ok(bytes)
}

/// The packed content streams of all pages, in order.
fn contents(document: &Document, codes: &Codes, pictures: &Pictures) -> Result<Vec<Stream>, Fault> {
    share_out(document.pages.iter().collect(), |packer, page: &Page| {
        let content = content::page(document, page, codes, pictures);
        let mut stream = Stream::new(Dictionary::new(), content);
        packer.pack(&mut stream)?;
        Ok(stream)
    })
}

/// Does the same to every item, each processor a share of them with a packer of its own. What comes out
/// is the same for any number of processors, and in order.
fn share_out<T: Send, U: Send>(
    items: Vec<T>,
    work: impl Fn(&mut Packer, T) -> Result<U, Fault> + Sync,
) -> Result<Vec<U>, Fault> {
    let processors = std::thread::available_parallelism().map_or(1, usize::from);
    let size = items.len().div_ceil(processors).max(1);
    let (mut items, work) = (items.into_iter(), &work);
    std::thread::scope(|scope| {
        let mut shares = Vec::new();
        while items.len() > 0 {
            let share: Vec<T> = items.by_ref().take(size).collect();
            shares.push(scope.spawn(move || {
                let mut packer = Packer::default();
                share.into_iter().map(|item| work(&mut packer, item)).collect::<Result<Vec<_>, _>>()
            }));
        }
        let mut made = Vec::new();
        for share in shares {
            made.extend(share.join().unwrap_or_else(|p| std::panic::resume_unwind(p))?);
        }
        Ok(made)
    })
}

fn assemble(
    file: &mut File,
    document: &Document,
    (codes, pictures): (&Codes, &Pictures),
    contents: Vec<Stream>,
    tree: &tags::Tree,
) -> Result<(), Fault> {
    let (pages, links) = (tree.pages, tree.links);
    let mut resources = dictionary! { "Font" => fonts::add(file, codes)? };
    let mut drawn = Dictionary::new();
    for (number, picture) in pictures.iter().enumerate() {
        let id = file.add_object(picture_stream(picture)?);
        drawn.set(content::picture_name(number), id);
    }
    if !drawn.is_empty() {
        resources.set("XObject", drawn);
    }
    let resources = file.add_object(resources);

    for (index, content) in contents.into_iter().enumerate() {
        let stream = file.add_object(content);
        let page = file.get_dictionary_mut(pages[index]).map_err(library)?;
        page.set("Resources", resources);
        page.set("Contents", stream);
        page.set("StructParents", tags::int(index));
        // Annotations in the order of the tag tree.
        page.set("Tabs", "S");
        let annotations: Vec<Object> = document
            .links
            .iter()
            .zip(links)
            .filter(|(link, _)| link.page == index)
            .map(|(_, &id)| id.into())
            .collect();
        if !annotations.is_empty() {
            page.set("Annots", annotations);
        }
    }

    let mut catalog = dictionary! {
        "Lang" => tags::text(&document.language),
        "MarkInfo" => dictionary! { "Marked" => true },
        "StructTreeRoot" => tree.root(),
        "Metadata" => file.add_object(Stream::new(
            dictionary! { "Type" => "Metadata", "Subtype" => "XML" },
            metadata::xmp(document).into_bytes(),
        )),
        "OutputIntents" => vec![output_intent(file)?.into()],
        "ViewerPreferences" => dictionary! {
            "DisplayDocTitle" => true,
            // Full-size sheets: no fitting to the paper, and paper by the page's size.
            "PrintScaling" => "None",
            "PickTrayByPDFSize" => true,
            "Duplex" => if document.duplex { "DuplexFlipLongEdge" } else { "Simplex" },
        },
        "PageLabels" => navigation::labels(document),
    };
    if let Some(outline) = navigation::outline(file, document, pages) {
        catalog.set("Outlines", outline);
        catalog.set("PageMode", "UseOutlines");
    }
    let mut names = Dictionary::new();
    if let Some(places) = navigation::destinations(document, pages) {
        names.set("Dests", places);
    }
    if let Some(attachment) = &document.attachment {
        let specification = metadata::attach(file, document, attachment)?;
        catalog.set("AF", vec![Object::Reference(specification)]);
        let entry = vec![tags::text(&attachment.name), specification.into()];
        names.set("EmbeddedFiles", dictionary! { "Names" => entry });
    }
    if !names.is_empty() {
        catalog.set("Names", names);
    }
    file.catalog_mut().map_err(library)?.extend(&catalog);
    let info = file.add_object(metadata::info(document));
    file.trailer.set("Info", info);
    file.trailer.set("ID", metadata::unsealed());
    Ok(())
}

#[expect(clippy::needless_pass_by_value, reason = "errors are mapped by value")]
fn library(error: lopdf::Error) -> Fault {
    Fault::Library(error.to_string())
}

fn output_intent(file: &mut File) -> Result<Dictionary, Fault> {
    let mut profile = Stream::new(dictionary! { "N" => 3 }, icc::srgb());
    pack(&mut profile)?;
    let profile = file.add_object(profile);
    Ok(dictionary! {
        "Type" => "OutputIntent",
        "S" => "GTS_PDFA1",
        "OutputConditionIdentifier" => Object::string_literal("sRGB IEC61966-2-1"),
        "Info" => Object::string_literal("sRGB IEC61966-2-1"),
        "DestOutputProfile" => profile,
    })
}

fn picture_stream(image: &Image) -> Result<Stream, Fault> {
    let space = match image.format {
        PixelFormat::Grey8 => "DeviceGray",
        PixelFormat::Rgb8 => "DeviceRGB",
    };
    let mut stream = Stream::new(
        dictionary! {
            "Type" => "XObject",
            "Subtype" => "Image",
            "Width" => i64::from(image.columns),
            "Height" => i64::from(image.rows),
            "ColorSpace" => space,
            "BitsPerComponent" => 8,
        },
        image.pixels.to_vec(),
    );
    pack(&mut stream)?;
    Ok(stream)
}
