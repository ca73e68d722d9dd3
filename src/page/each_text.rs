//! Every text of a packet in the order of its sheets, for whoever says it in other words.

use super::block::{
    ActionRow, Actions, Blank, Block, Booklet, Cell, DoneWhen, Figure, Hold, Safety, Table,
};
use super::sheet::{Packet, Sheet};
use super::text::{Text, Words};

/// What is done with each text.
type With<'a> = &'a mut dyn FnMut(&mut String);

impl Packet {
    /// Gives every text that is printed or read aloud to `with`, which may change it. The identity
    /// line is the writer's own and is left out, and so are anchors.
    pub fn each_text(&mut self, with: With) {
        with(&mut self.subject);
        if let Some(draft) = &mut self.draft {
            with(draft);
        }
        if let Some(attachment) = &mut self.attachment {
            with(&mut attachment.description);
        }
        for sheet in &mut self.sheets {
            sheet.each_text(with);
        }
    }
}

impl Sheet {
    /// The same for one sheet.
    pub fn each_text(&mut self, with: With) {
        with(&mut self.title);
        with(&mut self.purpose);
        if let Some(tab) = &mut self.tab {
            with(&mut tab.word);
        }
        blocks(&mut self.blocks, with);
    }
}

fn text(text: &mut Text, with: With) {
    for span in &mut text.spans {
        if let Words::Plain(words) = &mut span.words {
            with(words);
        }
    }
}

fn blocks(all: &mut [Block], with: With) {
    for one in all {
        block(one, with);
    }
}

fn block(block: &mut Block, with: With) {
    match block {
        Block::Heading(heading) => {
            text(&mut heading.text, with);
            text(&mut heading.aside, with);
        }
        Block::Paragraph(words) | Block::Strong(words) => text(words, with),
        Block::Bullets(items) => items.iter_mut().for_each(|item| text(item, with)),
        Block::Lead(lead) => {
            text(&mut lead.words, with);
            lead.notes.iter_mut().for_each(|note| text(note, with));
        }
        Block::KeyFigures(figures) => {
            for figure in figures {
                text(&mut figure.value, with);
                text(&mut figure.line, with);
            }
        }
        Block::Actions(list) => actions(list, with),
        Block::Table(one) => table(one, with),
        Block::Safety(message) => safety(message, with),
        Block::Hold(line) => hold(line, with),
        Block::Blanks(row) => row.iter_mut().for_each(|one| blank(one, with)),
        Block::Dotted(dotted) => {
            for (label, value) in dotted.groups.iter_mut().flatten() {
                text(label, with);
                text(value, with);
            }
        }
        Block::Index(index) => {
            index.entries.iter_mut().for_each(|entry| with(&mut entry.label));
        }
        Block::Figure(one) => figure(one, with),
        Block::Columns(columns) => {
            for column in columns.iter_mut() {
                blocks(&mut column.blocks, with);
            }
        }
        Block::Flow(flow) => blocks(&mut flow.blocks, with),
        Block::Under(under) => {
            blocks(&mut under.caption, with);
            blocks(&mut under.blocks, with);
        }
        Block::WithNext(all) => blocks(all, with),
        Block::Choice(ways) => ways.iter_mut().for_each(|way| blocks(way, with)),
        Block::Booklet(Booklet { panels }) => {
            for panel in panels {
                text(&mut panel.title, with);
                blocks(&mut panel.blocks, with);
            }
        }
        Block::Anchor(_) | Block::Space(_) | Block::PageBreak => {}
    }
}

fn actions(list: &mut Actions, with: With) {
    text(&mut list.note, with);
    list.boxes.iter_mut().for_each(&mut *with);
    for row in &mut list.rows {
        match row {
            ActionRow::Action(action) => {
                text(&mut action.text, with);
                text(&mut action.why, with);
                text(&mut action.also, with);
                match &mut action.done {
                    DoneWhen::State(state) => text(state, with),
                    DoneWhen::Limits { what, low, high, unit } => {
                        text(what, with);
                        [low, high, unit].into_iter().for_each(&mut *with);
                    }
                    DoneWhen::Blank(one) => blank(one, with),
                }
            }
            ActionRow::Safety(message) => safety(message, with),
            ActionRow::Hold(line) => hold(line, with),
            ActionRow::Figure(one) => figure(one, with),
        }
    }
}

fn table(table: &mut Table, with: With) {
    table.columns.iter_mut().for_each(|column| text(&mut column.head, with));
    table.over.iter_mut().for_each(|(head, _)| text(head, with));
    for cell in table.rows.iter_mut().flat_map(|row| &mut row.cells) {
        match cell {
            Cell::Text(words) | Cell::Bold(words) | Cell::Head(words) => text(words, with),
            Cell::Blank(words) => with(words),
            Cell::Scene(scene) => scene.each_text(with),
            Cell::Tick | Cell::Clock | Cell::Dash => {}
        }
    }
}

fn safety(message: &mut Safety, with: With) {
    text(&mut message.hazard, with);
    text(&mut message.avoid, with);
    if let Some(symbol) = &mut message.symbol {
        symbol.each_text(with);
    }
}

fn hold(line: &mut Hold, with: With) {
    text(&mut line.title, with);
    text(&mut line.condition, with);
    line.blanks.iter_mut().for_each(|one| blank(one, with));
}

fn blank(blank: &mut Blank, with: With) {
    text(&mut blank.label, with);
    with(&mut blank.unit);
}

fn figure(figure: &mut Figure, with: With) {
    figure.scene.each_text(with);
    text(&mut figure.caption, with);
}
