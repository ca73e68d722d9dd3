//! The safety sheet: every message of this build, the gravest first, with the steps that raise it.

mod signs;

pub use signs::sign;

use super::step::StepBasis;
use crate::compute::steps::{Message, Signal};
use crate::page::block::{Block, Heading, Safety, SignalWord};
use crate::page::text::Text;
use crate::page::{Sheet, Tab};

/// A message as a block: above its action on a step sheet, or on the safety sheet.
pub fn block(message: &Message) -> Safety {
    Safety {
        word: match message.word {
            Signal::Danger => SignalWord::Danger,
            Signal::Warning => SignalWord::Warning,
            Signal::Caution => SignalWord::Caution,
            Signal::Notice => SignalWord::Notice,
        },
        hazard: Text::from(message.hazard.as_str()).and(format!(" {}", message.consequence)),
        avoid: message.avoid.as_str().into(),
        symbol: message.sign.as_deref().and_then(sign),
    }
}

/// The sheet; none where there are no steps.
pub fn safety(basis: &StepBasis<'_>, tab: &Tab) -> Vec<Sheet> {
    let messages = &basis.steps.messages;
    if messages.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![Block::Paragraph(
        "The packet never replaces local codes, the makers' instructions, type approval or licensed \
         people. Where they differ, they win."
            .into(),
    )];
    let (whole, raised): (Vec<&Message>, Vec<&Message>) =
        messages.iter().partition(|message| message.steps.is_empty());
    for (title, messages) in [("For the whole job", whole), ("By step", raised)] {
        if messages.is_empty() {
            continue;
        }
        blocks.push(Block::Heading(Heading::new(title)));
        for message in messages {
            let mut safety = block(message);
            if !message.steps.is_empty() {
                safety.avoid = with_steps(safety.avoid, basis, &message.steps);
            }
            blocks.push(Block::Safety(safety));
            // A message keeps company with what follows it; here each stands alone.
            blocks.push(Block::Space(0.0));
        }
    }
    blocks.push(Block::Strong(
        "List complete. Next: the sheets of what to measure and to buy.".into(),
    ));
    vec![Sheet {
        anchor: "safety".into(),
        title: "What can hurt".into(),
        purpose:
            "Read before the work; each message comes again above the action that it is about."
                .into(),
        tab: Some(tab.clone()),
        steps: None,
        blocks,
        single_sided: false,
    }]
}

/// The steps that raise a message, each linked to its sheet.
fn with_steps(text: Text, basis: &StepBasis<'_>, numbers: &[u32]) -> Text {
    let mut text = text.and(if numbers.len() == 1 { " Step " } else { " Steps " });
    for (index, number) in numbers.iter().enumerate() {
        let separator = match index {
            0 => "",
            _ if index + 1 == numbers.len() => " and ",
            _ => ", ",
        };
        let anchor =
            basis.steps.steps.iter().find(|step| step.number == *number).map(super::step::anchor);
        text = text.and(separator);
        text = match anchor {
            Some(anchor) => text.and_link(number.to_string(), anchor),
            None => text.and(number.to_string()),
        };
    }
    text.and(".")
}
