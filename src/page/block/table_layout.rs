//! Tables: how they are laid out.

use std::rc::Rc;

use super::dotted::natural;
use super::table::{Cell, ColumnAlign, ColumnWidth, Row, Table};
use super::table_widths::{Ask, share_out};
use super::{Piece, limited, tick_box, write_box};
use crate::page::context::{Context, ProblemKind};
use crate::page::draw::rule;
use crate::page::model::{NodeId, Pen, Rect, Role, Scope};
use crate::page::scene::draw_small;
use crate::page::strip::{Owner, Strip};
use crate::page::text::{Align, Lines, Setting, Text, clean, set};

/// Page rule 22: 5 mm or more.
const TICK: f64 = 5.0;
const BLANK_WIDTH: f64 = 35.0;
const BLANK_HEIGHT: f64 = 10.0;
/// Four figures and a colon need less room than a measured value.
const CLOCK: (f64, f64) = (22.0, 7.0);
const LEAST_SIZE: f64 = 10.0;

/// Room in a row beside what stands in it, mm.
#[derive(Clone, Copy)]
struct Air {
    words: f64,
    tick: f64,
    blank: f64,
}

impl Air {
    fn of(context: &Context) -> Self {
        if context.compact.get() {
            Self { words: 0.15, tick: 0.6, blank: 1.0 }
        } else {
            Self { words: 0.5, tick: 1.3, blank: 2.4 }
        }
    }
}

/// Widths that hold for the whole table.
struct Grid {
    lefts: Vec<f64>,
    widths: Vec<f64>,
    /// For decimal columns: width of the widest part after and including the point, mm.
    tails: Vec<f64>,
    size: f64,
    width: f64,
    /// Words of the cells, by column and row; the grid gives them their width.
    cells: Vec<Vec<Option<Measured>>>,
}

/// Words of a cell in one line.
struct Measured {
    lines: Lines,
    /// In a decimal column, width of the part after and including the point, mm.
    tail: f64,
}

pub(super) fn lay(table: &Table, width: f64, parent: NodeId, context: &Context) -> Vec<Piece> {
    if table.columns.is_empty() {
        return Vec::new();
    }
    let mut grid = measure(table, width, context.small(), context);
    if grid.1 {
        // Rather a little smaller than with broken words.
        grid = measure(table, width, LEAST_SIZE, context);
    }
    let grid = grid.0;
    let node = context.tags.node(parent, Role::Table);
    let thead = context.tags.node(node, Role::THead);
    let (head, head_height) = head(table, &grid, thead, context);
    let repeated = Rc::new((head.as_furniture(), head_height));
    let mut closing = Strip::new();
    closing.path(Owner::Furniture, rule(0.0, 0.0, grid.width, Pen::W050));
    let closing = Rc::new(closing);

    let mut pieces = vec![Piece {
        before: 2.0,
        keep: !table.rows.is_empty(),
        snap: true,
        ..Piece::new(head, head_height)
    }];
    if table.rows.is_empty() {
        return pieces;
    }
    let tbody = context.tags.node(node, Role::TBody);
    let rules = rules(table);
    // Where groups have rules inside, those at their ends are wider.
    let inner = rules.iter().zip(&table.rows).any(|(ruled, row)| *ruled && !row.ends_group);
    let grouped = table.rows.iter().any(|r| r.ends_group);
    for (index, row) in table.rows.iter().enumerate() {
        let last = index + 1 == table.rows.len();
        let ruled = rules[index];
        let pen = if grouped && inner && row.ends_group { Pen::W050 } else { Pen::W025 };
        let mut parts = body_row((index, row), table, &grid, tbody, context);
        if let Some(part) = parts.last_mut() {
            let y = part.height;
            if last {
                part.strip.path(Owner::Layout, rule(0.0, y, grid.width, Pen::W050));
            } else if ruled {
                part.strip.path(Owner::Layout, rule(0.0, y, grid.width, pen));
            }
        }
        for part in &mut parts {
            part.head = Some(Rc::clone(&repeated));
            if !last {
                part.closing = Some(Rc::clone(&closing));
            }
        }
        pieces.extend(parts);
    }
    // Neither the first two nor the last two rows stand alone.
    let count = pieces.len();
    if count > 3 {
        pieces[1].keep = true;
        pieces[count - 2].keep = true;
    }
    pieces
}

/// Most rows without a rule (page rule 58).
const MOST_ROWS: usize = 5;

/// Which rows have a rule under them: those that end a group, and inside of a long one as many as it
/// takes, evenly; every fourth in a table without groups.
fn rules(table: &Table) -> Vec<bool> {
    if !table.rows.iter().any(|row| row.ends_group) {
        return (1..=table.rows.len()).map(|number| number.is_multiple_of(4)).collect();
    }
    let mut rules = Vec::with_capacity(table.rows.len());
    for group in table.rows.chunk_by(|row, _| !row.ends_group) {
        let parts = group.len().div_ceil(MOST_ROWS);
        rules.extend((1..=group.len()).map(|number| {
            // The part that a row lies in changes behind it.
            let part = |number: usize| (number * parts).div_ceil(group.len());
            part(number) != part(number + 1)
        }));
    }
    rules
}

/// The grid, and whether words have to be broken in it.
fn measure(table: &Table, width: f64, size: f64, context: &Context) -> (Grid, bool) {
    let mut tails = vec![0.0_f64; table.columns.len()];
    let mut tight = false;
    let mut measured: Vec<Vec<Option<Measured>>> = Vec::with_capacity(table.columns.len());
    let asks: Vec<Ask> = table
        .columns
        .iter()
        .enumerate()
        .map(|(c, column)| {
            let head = set(&column.head, wide(size).bold(), context);
            let mut least = head.least_width();
            if head.width() > 16.0 {
                // A head of several words may take two lines.
                least = least.max(head.width() * 0.55).min(head.width());
            } else {
                least = head.width();
            }
            let mut most = head.width();
            let mut whole = 0.0_f64;
            let mut cells = vec![head.width()];
            let mut texts = Vec::with_capacity(table.rows.len());
            for row in &table.rows {
                let cell = row.cells.get(c).unwrap_or(&Cell::Dash);
                let lines = words(cell).map(|(text, bold)| {
                    let setting = if bold { wide(size).bold() } else { wide(size) };
                    set(text, setting, context)
                });
                if let (ColumnAlign::Decimal, Some((text, bold))) = (column.align, words(cell)) {
                    let (a, b) = split(&text.plain(), context.voice.decimal);
                    let whole_width = natural(&a.into(), bold, size, context);
                    let tail = natural(&b.into(), bold, size, context);
                    whole = whole.max(whole_width);
                    tails[c] = tails[c].max(tail);
                    cells.push(whole_width + tail);
                    texts.push(lines.map(|lines| Measured { lines, tail }));
                    continue;
                }
                let (own, own_least) = match &lines {
                    Some(lines) => (lines.width(), lines.least_width()),
                    None => {
                        let own = drawn_width(cell, size, context);
                        (own, own)
                    }
                };
                texts.push(lines.map(|lines| Measured { lines, tail: 0.0 }));
                most = most.max(own);
                least = least.max(own_least);
                cells.push(own);
            }
            measured.push(texts);
            most = most.max(whole + tails[c]);
            if column.align == ColumnAlign::Decimal {
                least = least.max(whole + tails[c]);
            }
            let fixed = match column.width {
                ColumnWidth::AtMost(w) if most > w => Some(w.max(1.0)),
                ColumnWidth::Auto | ColumnWidth::AtMost(_) => None,
                ColumnWidth::Mm(w) => Some(w.max(1.0)),
            };
            let flexible = column.align == ColumnAlign::Left && fixed.is_none();
            Ask { natural: most, least, flexible, fixed, cells }
        })
        .collect();
    let (widths, gap) = share_out(&asks, width);
    for (ask, own) in asks.iter().zip(&widths) {
        tight |= *own + 1e-6 < ask.least && ask.fixed.is_none();
    }
    let mut lefts = Vec::with_capacity(widths.len());
    let mut x = 0.0;
    for w in &widths {
        lefts.push(x);
        x += w + gap;
    }
    let total = (x - gap).max(1.0);
    (Grid { lefts, widths, tails, size, width: total, cells: measured }, tight)
}

fn wide(size: f64) -> Setting {
    Setting::new(size, 1.0e6).most(usize::MAX)
}

fn words(cell: &Cell) -> Option<(&Text, bool)> {
    match cell {
        Cell::Text(text) => Some((text, false)),
        Cell::Bold(text) | Cell::Head(text) => Some((text, true)),
        _ => None,
    }
}

/// A number parted before its decimal point; words have no second part.
fn split(number: &str, decimal: char) -> (String, String) {
    let number = clean(number);
    match number.find(decimal) {
        Some(at) if number[at + 1..].starts_with(|c: char| c.is_ascii_digit()) => {
            (number[..at].to_owned(), number[at..].to_owned())
        }
        _ => (number, String::new()),
    }
}

/// Width of a cell without words.
fn drawn_width(cell: &Cell, size: f64, context: &Context) -> f64 {
    match cell {
        Cell::Tick => TICK,
        Cell::Blank(unit) => {
            let unit = natural(&unit.as_str().into(), false, size, context);
            BLANK_WIDTH + if unit > 0.0 { unit + 1.2 } else { 0.0 }
        }
        Cell::Clock => CLOCK.0,
        Cell::Scene(scene) => scene.small_size(context).0.min(60.0),
        Cell::Dash | Cell::Text(_) | Cell::Bold(_) | Cell::Head(_) => 3.0,
    }
}

fn align(column: ColumnAlign) -> Align {
    match column {
        ColumnAlign::Left => Align::Left,
        ColumnAlign::Right | ColumnAlign::Decimal => Align::Right,
        ColumnAlign::Centre => Align::Centre,
    }
}

fn head(table: &Table, grid: &Grid, thead: NodeId, context: &Context) -> (Strip, f64) {
    let mut strip = Strip::new();
    let mut y = 0.0;
    let spans: usize = table.over.iter().map(|o| o.1).sum();
    if spans == table.columns.len() {
        let row = context.tags.node(thead, Role::Tr);
        let mut c = 0;
        let mut tallest: f64 = 0.0;
        let mut grouped = Vec::new();
        for (text, span) in &table.over {
            let columns = u16::try_from(*span).unwrap_or(u16::MAX);
            if *span == 0 {
                continue;
            }
            let role = Role::Th { scope: Scope::Column, columns };
            let cell = context.tags.node(row, role);
            let x = grid.lefts[c];
            let end = c + span - 1;
            let width = grid.lefts[end] + grid.widths[end] - x;
            let at = align(table.columns[end].align);
            let lines = limited(text, Setting::new(grid.size, width).bold().align(at), 4, context);
            tallest = tallest.max(lines.draw(&mut strip, x, 0.0, Owner::Node(cell), context));
            if *span > 1 && lines.count() > 0 {
                grouped.push((x, width));
            }
            c = end + 1;
        }
        for (x, width) in grouped {
            strip.path(Owner::Layout, rule(x, tallest + 0.2, width, Pen::W025));
        }
        y = tallest + 0.6;
    }
    let row = context.tags.node(thead, Role::Tr);
    let cells: Vec<Lines> = table
        .columns
        .iter()
        .zip(&grid.widths)
        .map(|(column, width)| {
            let setting = Setting::new(grid.size, *width).bold().align(align(column.align));
            limited(&column.head, setting, 6, context)
        })
        .collect();
    let height = cells.iter().map(Lines::height).fold(0.0, f64::max);
    for (c, lines) in cells.iter().enumerate() {
        let cell = context.tags.node(row, Role::Th { scope: Scope::Column, columns: 1 });
        // Heads stand on the rule.
        let top = y + height - lines.height();
        lines.draw(&mut strip, grid.lefts[c], top, Owner::Node(cell), context);
    }
    y += height + 0.6;
    strip.path(Owner::Layout, rule(0.0, y, grid.width, Pen::W050));
    (strip, y + 0.3)
}

/// One row as one piece, or as several if it is taller than a page.
fn body_row(
    (number, row): (usize, &Row),
    table: &Table,
    grid: &Grid,
    tbody: NodeId,
    context: &Context,
) -> Vec<Piece> {
    let node = context.tags.node(tbody, Role::Tr);
    let dash = Cell::Dash;
    let cells: Vec<(&Cell, NodeId)> = (0..table.columns.len())
        .map(|c| {
            let cell = row.cells.get(c).unwrap_or(&dash);
            let role = match cell {
                Cell::Head(_) => Role::Th { scope: Scope::Row, columns: 1 },
                _ => Role::Td { columns: 1 },
            };
            (cell, context.tags.node(node, role))
        })
        .collect();
    let texts: Vec<Option<Lines>> = cells
        .iter()
        .enumerate()
        .map(|(c, (cell, _))| {
            let column = &table.columns[c];
            let known = grid.cells[c][number].as_ref();
            let mut width = grid.widths[c];
            if let (ColumnAlign::Decimal, Some(known)) = (column.align, known) {
                width -= (grid.tails[c] - known.tail).max(0.0);
            }
            let setting = Setting::new(grid.size, width).align(align(column.align));
            match (known, cell) {
                (Some(known), _) => Some(known.lines.refit(setting, context)),
                (None, Cell::Dash) => Some(set(&"–".into(), setting, context)),
                _ => None,
            }
        })
        .collect();
    let line = Setting::new(grid.size, 1.0).line();
    let fit = (((context.height - 30.0) / line) as usize).max(3);
    let most = texts.iter().flatten().map(Lines::count).max().unwrap_or(1);
    if most > fit {
        context.problem(ProblemKind::Parted, format!("table row of {most} lines"));
    }
    let air = Air::of(context);
    let mut pieces = Vec::new();
    let mut from = 0;
    loop {
        let to = (from + fit).min(most.max(1));
        let mut strip = Strip::new();
        let mut height = 0.0_f64;
        let parts: Vec<Option<Lines>> =
            texts.iter().map(|t| t.as_ref().map(|l| l.part(from, to))).collect();
        for part in parts.iter().flatten() {
            height = height.max(part.height() + air.words);
        }
        if from == 0 {
            for (cell, _) in &cells {
                height = height.max(match cell {
                    Cell::Tick => TICK + air.tick,
                    Cell::Blank(_) => BLANK_HEIGHT + air.blank,
                    Cell::Clock => CLOCK.1 + air.words,
                    Cell::Scene(scene) => scene.small_size(context).1.min(60.0) + 1.0,
                    _ => 0.0,
                });
            }
        }
        for (c, (cell, owner)) in cells.iter().enumerate() {
            let (x, width) = (grid.lefts[c], grid.widths[c]);
            if let Some(part) = &parts[c] {
                // A single line stands in the middle of a tall row, longer ones at the top.
                let top = if part.count() <= 1 && most <= 1 {
                    (height - part.height()) / 2.0
                } else {
                    air.words / 2.0
                };
                part.draw(&mut strip, x, top, Owner::Node(*owner), context);
            } else if from == 0 {
                sign(&mut strip, cell, table.columns[c].align, (x, width, height), *owner, context);
            }
        }
        pieces.push(Piece::new(strip, height));
        from = to;
        if from >= most {
            break;
        }
    }
    pieces
}

/// A cell that is drawn, not set.
fn sign(
    strip: &mut Strip,
    cell: &Cell,
    column: ColumnAlign,
    (x, width, height): (f64, f64, f64),
    owner: NodeId,
    context: &Context,
) {
    let place = |own: f64| match align(column) {
        Align::Left => x,
        Align::Right => x + width - own,
        Align::Centre => x + (width - own) / 2.0,
    };
    match cell {
        Cell::Tick => {
            tick_box(strip, (place(TICK), (height - TICK) / 2.0, TICK), owner, context);
        }
        Cell::Blank(unit) => {
            let text = Text::from(unit);
            let lines =
                limited(&text, Setting::new(context.small(), (width * 0.5).max(1.0)), 1, context);
            let after = if lines.count() > 0 { lines.width() + 1.2 } else { 0.0 };
            let own = (width - after).clamp(1.0, BLANK_WIDTH * 1.3);
            let area = Rect::new(x, (height - BLANK_HEIGHT) / 2.0, own, BLANK_HEIGHT);
            write_box(strip, area, unit, owner, context);
            if lines.count() > 0 {
                let node = context.tags.node(owner, Role::P);
                let top = area.y + (BLANK_HEIGHT - lines.height()) / 2.0;
                lines.draw(strip, area.right() + 1.2, top, Owner::Node(node), context);
            }
        }
        Cell::Clock => {
            let area = Rect::new(x, (height - CLOCK.1) / 2.0, width.min(CLOCK.0), CLOCK.1);
            write_box(strip, area, "", owner, context);
        }
        Cell::Scene(scene) => {
            let (w, h) = scene.small_size(context);
            let (w, h) = (w.min(width), h.min(height));
            let area = Rect::new(place(w), (height - h) / 2.0, w, h);
            draw_small(scene, area, strip, owner, context);
        }
        _ => {}
    }
}
