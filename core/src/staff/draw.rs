//! Lays out a reading and paints it, system by system.

use super::column::Column;
use super::drawing::{ChordPlace, Drawing, PassingPlace, System};
use super::figures;
use super::glyphs;
use super::heads::{self, Head, Part, Shape};
use super::look::{Layer, Look, Painted, Room};
use super::marks;
use super::motions;
use super::paint;
use super::pen::Pen;
use super::scene::Scene;
use super::stave::Stave;
use super::wrap::{self, Line};
use crate::hands::{Hand, Handful};
use crate::reading::Reading;
use crate::sketch::Sketch;
use std::ops::Range;

/// x of the line that joins the staves.
pub(super) const LEFT: f64 = 1.0;
/// x of the clefs.
pub(super) const CLEF_X: f64 = LEFT + 0.6;
/// x of the signature.
pub(super) const SIGNATURE_X: f64 = CLEF_X + 3.2;
/// Least distance between the staves.
const GAP: f64 = 6.5;
/// Room at the end for the double bar.
pub(super) const END_ROOM: f64 = 1.2;
/// Height of a pin above its note.
pub(super) const PIN_HEIGHT: f64 = 1.5;
/// Height of the row of fault signs over a system.
const FAULT_ROW: f64 = 2.1;
/// Height of the final fermata and of the air under it.
const FERMATA_ROW: f64 = 2.1;

/// How far what is drawn may reach into the air around a system whose staves were held before it
/// gets more; and how much more than it needs, so that the next steps find room. Above the staves
/// that is more to be seen, and nothing moves; between and below them they give way.
const SQUEEZE: f64 = 0.75;
const LEAP: f64 = 2.0;

/// Draws a reading of a sketch. An empty sketch gives an empty grand staff.
/// Cost: O(notes), and O(notes in a system) more for each note when wrapping.
pub fn draw(sketch: &Sketch, reading: &Reading, look: &Look) -> Drawing {
    let scene = Scene::new(sketch, reading, look);
    let columns = columns(&scene, 0..usize::MAX).0;
    let start = SIGNATURE_X + scene.signature.width() + 0.4;
    let between = look.show.has(Layer::Motions);
    let air = if between { wrap::AIR_FOR_SIGNS } else { wrap::AIR };
    let air = look.air.clamp(air, wrap::WIDEST_AIR);
    let end = scene.width - END_ROOM;
    let mut lines: Vec<Line> = match wrap::held(columns.len(), &look.rooms) {
        Some(held) => held.collect(),
        None => wrap::lines(&columns, start, end, air),
    };
    if lines.is_empty() {
        lines.push(Line { first: 0, x: Vec::new(), end: scene.width - END_ROOM });
    }
    let count = lines.len();
    let systems = lines.iter().enumerate().map(|(i, line)| {
        let columns = columns.get(line.first..line.first + line.x.len()).unwrap_or_default();
        system(&scene, columns, line, i, if i + 1 == count { End::Last } else { End::GoesOn })
    });
    Drawing { systems: systems.collect() }
}

/// Draws one system anew, as [`draw`] would with the rooms that `look` must have for all of them.
/// `None` where the columns are no longer as many as were there. Cost: O(notes) for a glance at
/// each, and the drawing of one system.
pub fn redraw(sketch: &Sketch, reading: &Reading, look: &Look, index: usize) -> Option<System> {
    let scene = Scene::new(sketch, reading, look);
    let before: usize = look.rooms.iter().take(index).map(|room| room.columns.len()).sum();
    let here = look.rooms.get(index)?.columns.len();
    // A sign may remind of what the column before had.
    let (columns, count) = columns(&scene, before.saturating_sub(1)..before + here);
    let line = wrap::held(count, &look.rooms)?.nth(index)?;
    let columns = columns.get(before.min(1)..)?;
    let end = if index + 1 == look.rooms.len() { End::Last } else { End::GoesOn };
    Some(system(&scene, columns, &line, index, end))
}

/// What comes after a system.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum End {
    /// Another system.
    GoesOn,
    /// Nothing: it is the piece's last.
    Last,
}

/// The columns in this range, and how many there are in all.
fn columns(scene: &Scene<'_>, range: Range<usize>) -> (Vec<Column>, usize) {
    let Scene { sketch, reading, look, signature, .. } = *scene;
    let silent = Handful { left: Vec::new(), right: Vec::new() };
    let mut chords = reading.harmony.chords.iter().enumerate().peekable();
    let most = reading.harmony.chords.len().max(sketch.notes.len());
    let mut columns: Vec<Column> = Vec::with_capacity(range.len().min(most));
    let mut count = 0;
    for (index, note) in sketch.notes.iter().enumerate() {
        let before = count;
        while let Some((i, chord)) = chords.next_if(|(_, chord)| chord.note <= index) {
            if range.contains(&count) {
                let soprano = reading.frame.soprano.get(i).copied().unwrap_or(chord.bass);
                let handful = reading.hands.handfuls.get(i).unwrap_or(&silent);
                let last = columns.last();
                let column =
                    Column::of_chord((i, chord), soprano, handful, signature, last, look.show);
                columns.push(column);
            }
            count += 1;
        }
        if count == before {
            if range.contains(&count) {
                columns.push(Column::of_passing(index, note.pitch, signature, columns.last()));
            }
            count += 1;
        }
    }
    (columns, count)
}

/// How far the content of a system reaches beyond its staves.
struct Reach {
    above_treble: f64,
    below_treble: f64,
    above_bass: f64,
    below_bass: f64,
    figure_rows: usize,
}

fn reach(scene: &Scene<'_>, columns: &[Column]) -> Reach {
    let mut reach = Reach {
        above_treble: glyphs::CLEF_G.above() - 3.0,
        below_treble: glyphs::CLEF_G.below() - 1.0,
        above_bass: 0.5,
        below_bass: 0.5,
        figure_rows: 0,
    };
    let mut extend = |stave: Stave, y: f64, up: f64, down: f64| {
        let (above, below) = match stave {
            Stave::Treble => (&mut reach.above_treble, &mut reach.below_treble),
            Stave::Bass => (&mut reach.above_bass, &mut reach.below_bass),
        };
        *above = above.max(up - y);
        *below = below.max(y + down - 4.0);
    };
    for column in columns {
        let pin = column.chord.is_some_and(|chord| scene.pinned(chord));
        for head in &column.heads {
            let up = if pin && head.part == Part::Soprano { 0.5 + PIN_HEIGHT } else { 0.5 };
            extend(head.stave, head.stave.down(head.pitch.diatonic()), up, 0.5);
        }
        for sign in &column.accidentals {
            let Some(head) = column.heads.get(sign.head) else { continue };
            let y = head.stave.down(head.pitch.diatonic());
            let scale = sign.size.scale();
            extend(head.stave, y, sign.glyph.above() * scale, sign.glyph.below() * scale);
        }
    }
    reach.figure_rows = columns.iter().map(|column| column.figures.rows).max().unwrap_or(0);
    reach
}

fn system(scene: &Scene<'_>, columns: &[Column], line: &Line, index: usize, end: End) -> System {
    let x = &line.x;
    let Scene { reading, look, width, .. } = *scene;
    let reach = reach(scene, columns);
    let concerned = |fault: &crate::frame::Fault| {
        columns.iter().filter_map(|c| c.chord).any(|chord| (fault.from..=fault.to).contains(&chord))
    };
    let marked = look.show.has(Layer::Faults) && reading.frame.faults.iter().any(concerned);
    let fermata = end == End::Last && columns.last().is_some_and(|c| c.chord.is_some());
    let mut treble_top = reach.above_treble + 0.5;
    treble_top += if marked { FAULT_ROW } else { 0.0 };
    treble_top += if fermata { FERMATA_ROW } else { 0.0 };
    let motions_row =
        if look.show.has(Layer::Motions) && columns.len() > 1 { motions::ROW } else { 0.0 };
    let held = |needed: f64, had: fn(&Room) -> f64| match look.rooms.get(index).map(had) {
        Some(had) if needed <= had + SQUEEZE => had,
        Some(_) => needed + LEAP,
        None => needed,
    };
    let rise = match look.rooms.get(index) {
        Some(had) if treble_top <= had.above + had.rise + SQUEEZE => had.rise,
        Some(had) => treble_top - had.above + LEAP,
        None => 0.0,
    };
    let treble_top = look.rooms.get(index).map_or(treble_top, |room| room.above);
    let gap = GAP.max(reach.below_treble + reach.above_bass + 0.8 + motions_row);
    let gap = held(gap, |room| room.between);
    let bass_top = treble_top + 4.0 + gap;
    let figures_top = bass_top + 4.0 + held(reach.below_bass + 0.6, |room| room.below);
    let height = figures_top + reach.figure_rows as f64 * figures::ROW + 0.4;
    let mut system = System {
        width,
        height,
        rise,
        staff_end: line.end + END_ROOM,
        treble_top,
        bass_top,
        figures_top,
        svg: String::new(),
        chords: Vec::with_capacity(columns.len()),
        passing: Vec::new(),
    };
    let stood = look.rooms.get(index).filter(|room| room.columns.len() == columns.len());
    let ends = match stood {
        Some(room) => room.columns.iter().map(|it| (it.left, it.right)).collect(),
        None => column_ends(columns, x),
    };
    for ((column, &x), ends) in columns.iter().zip(x).zip(ends) {
        locate(reading, &mut system, column, x, ends);
    }
    let (only, painted) = match look.painted {
        Painted::Nothing => return system,
        Painted::Chord(chord) => (Some(chord), 1),
        Painted::Whole => (None, columns.len()),
    };
    let mut pen = Pen::with_capacity(2_000 + 3_000 * painted).with_signs(look.signs);
    if only.is_none() {
        paint::staves(&mut pen, scene.signature, &system, end);
    }
    // Where the figures of the column before end, for a dash to start from.
    let mut figured = None;
    for (column, &x) in columns.iter().zip(x) {
        let middle = x + Shape::White.width() / 2.0;
        if only.is_none() || only == column.chord {
            paint::column(&mut pen, scene, &system, column, x);
            paint::figures(&mut pen, column, middle, figures_top, figured);
            pen.raw("</g>");
        }
        figured = Some(middle + column.figures.right);
    }
    if only.is_some() {
        if look.show.has(Layer::Faults) {
            marks::faults(&mut pen, scene, &system);
        }
        system.svg = pen.finish();
        return system;
    }
    if look.show.has(Layer::Motions) {
        let free = gap - reach.below_treble - reach.above_bass;
        motions::motions(
            &mut pen,
            reading,
            &system,
            treble_top + 4.0 + reach.below_treble + free / 2.0,
            look.lang,
        );
    }
    if fermata {
        paint::fermata(&mut pen, scene, &system);
    }
    if look.show.has(Layer::Faults) {
        marks::faults(&mut pen, scene, &system);
    }
    system.svg = pen.finish();
    system
}

/// The ends of each column, halfway between what neighbours draw.
fn column_ends(columns: &[Column], x: &[f64]) -> Vec<(f64, f64)> {
    let edges: Vec<(f64, f64)> =
        columns.iter().zip(x).map(|(column, x)| (x - column.left, x + column.right)).collect();
    let mut ends: Vec<(f64, f64)> = edges.iter().map(|&(l, r)| (l - 0.5, r + 0.5)).collect();
    for i in 1..ends.len() {
        let (Some(before), Some(after)) = (edges.get(i - 1), edges.get(i)) else { continue };
        let middle = (before.1 + after.0) / 2.0;
        if let Some(end) = ends.get_mut(i - 1) {
            end.1 = middle;
        }
        if let Some(end) = ends.get_mut(i) {
            end.0 = middle;
        }
    }
    ends
}

fn locate(
    reading: &Reading,
    system: &mut System,
    column: &Column,
    x: f64,
    (x_left, x_right): (f64, f64),
) {
    let middle = |head: &Head| x + head.x + head.shape.width() / 2.0;
    let Some(bass) = column.part(Part::Bass) else { return };
    let bass_y = system.y_of(bass.stave, bass.pitch.diatonic());
    let (bass_x, soprano_x) = (middle(bass), middle(column.part(Part::Soprano).unwrap_or(bass)));
    let x = x + Shape::White.width() / 2.0;
    let chord = column.chord.and_then(|i| Some((i, reading.harmony.chords.get(i)?)));
    let Some((index, chord)) = chord else {
        let place =
            PassingPlace { note: column.note, x, x_left, x_right, bass_y, bass_stave: bass.stave };
        system.passing.push(place);
        return;
    };
    let soprano = reading.frame.soprano.get(index).copied().unwrap_or(chord.bass);
    let soprano_stave =
        if soprano == chord.bass { bass.stave } else { heads::stave(soprano, Hand::Right) };
    system.chords.push(ChordPlace {
        chord: index,
        note: chord.note,
        stage: chord.stage,
        x,
        x_left,
        x_right,
        bass_x,
        bass_y,
        bass_stave: bass.stave,
        soprano_x,
        soprano_y: system.y_of(soprano_stave, soprano.diatonic()),
        soprano_stave,
    });
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pitch::Pitch;
    use crate::reading::read;
    use crate::sketch::{SketchNote, Weight};

    #[test]
    fn an_empty_sketch_gives_an_empty_grand_staff() {
        let sketch = Sketch::default();
        let drawing = draw(&sketch, &read(&sketch), &Look::new(36.0));
        assert_eq!(drawing.systems.len(), 1);
        let system = &drawing.systems[0];
        assert!(system.chords.is_empty());
        assert!(system.svg.contains("ms-clef-g") && system.svg.contains("ms-clef-f"));
    }

    #[test]
    fn rooms_hold_the_staves_where_they_were() {
        let mut sketch = Sketch::default();
        for i in 0..60 {
            sketch.notes.push(SketchNote::bare(Pitch::from_diatonic(15 + i % 9, 0)));
        }
        let reading = read(&sketch);
        let plain = draw(&sketch, &reading, &Look::new(40.0));
        let wider = |room: Room| Room { above: room.above + 3.0, ..room };
        let rooms: Vec<Room> = plain.systems.iter().map(|it| wider(it.room())).collect();
        let look = Look { rooms: rooms.clone(), painted: Painted::Nothing, ..Look::new(40.0) };
        let held = draw(&sketch, &reading, &look);
        assert!(plain.systems.len() > 2);
        for (system, room) in held.systems.iter().zip(&rooms) {
            assert_eq!(system.room(), *room);
            assert!(system.svg.is_empty());
        }
    }

    #[test]
    fn what_needs_more_air_above_held_staves_rises_and_moves_nothing() {
        let mut sketch = Sketch::default();
        for i in 0..60 {
            sketch.notes.push(SketchNote::bare(Pitch::from_diatonic(15 + i % 9, 0)));
        }
        let reading = read(&sketch);
        let plain = draw(&sketch, &reading, &Look::new(40.0));
        let lower = |room: Room| Room { above: room.above - 3.0, ..room };
        let rooms: Vec<Room> = plain.systems.iter().map(|it| lower(it.room())).collect();
        let look = Look { rooms, ..Look::new(40.0) };
        let held = draw(&sketch, &reading, &look);
        for (before, system) in plain.systems.iter().zip(&held.systems) {
            assert_eq!(before.rise, 0.0);
            // All that there was, and air for the next steps.
            let air = system.rise + system.treble_top;
            assert!((air - before.treble_top - LEAP).abs() < 1e-9);
            assert!((system.height - before.height + 3.0).abs() < 1e-9);
            for (a, b) in before.chords.iter().zip(&system.chords) {
                assert!((a.bass_y - 3.0 - b.bass_y).abs() < 1e-9);
                assert!((a.soprano_y - 3.0 - b.soprano_y).abs() < 1e-9);
            }
        }
        // With that air a step that needs no more of it finds it.
        let rooms: Vec<Room> = held.systems.iter().map(System::room).collect();
        assert_eq!(draw(&sketch, &reading, &Look { rooms, ..look }), held);
    }

    #[test]
    fn a_system_drawn_anew_is_the_one_that_was() {
        let mut sketch = Sketch::default();
        for i in 0..60 {
            sketch.notes.push(SketchNote::bare(Pitch::from_diatonic(15 + i % 9, (i % 2) as i8)));
            if i % 5 == 0 {
                sketch.notes.last_mut().expect("a note").weight = Weight::Passing;
            }
        }
        let reading = read(&sketch);
        let plain = draw(&sketch, &reading, &Look::new(40.0));
        let rooms: Vec<Room> = plain.systems.iter().map(System::room).collect();
        let look = Look { rooms, ..Look::new(40.0) };
        for (i, system) in plain.systems.iter().enumerate() {
            let anew = redraw(&sketch, &reading, &look, i).expect("a system");
            assert_eq!((anew.svg, anew.height), (system.svg.clone(), system.height));
            // A chord by itself is drawn as in the whole, and the faults follow it.
            for place in &system.chords {
                let look = Look { painted: Painted::Chord(place.chord), ..look.clone() };
                let alone = redraw(&sketch, &reading, &look, i).expect("a system");
                let faults = alone.svg.find("<g class=\"faults\"").expect("faults");
                let (chord, faults) = alone.svg.split_at(faults);
                assert!(chord.contains(&format!(" id=\"chord-{}\"", place.chord)));
                assert!(system.svg.contains(chord) && system.svg.ends_with(faults));
            }
        }
        // Another bass has other columns.
        sketch.notes.pop();
        assert_eq!(redraw(&sketch, &read(&sketch), &look, 0), None);
    }

    #[test]
    fn every_chord_has_its_place_within_the_system() {
        let mut sketch = Sketch::default();
        for i in 0..40 {
            let pitch = Pitch::from_diatonic(14 + i % 12, (i % 3) as i8 - 1);
            sketch.notes.push(SketchNote::bare(pitch));
        }
        let reading = read(&sketch);
        let drawing = draw(&sketch, &reading, &Look::new(36.0));
        let mut seen = 0;
        for system in &drawing.systems {
            let mut edge = 0.0;
            for place in &system.chords {
                assert_eq!(place.chord, seen);
                seen += 1;
                assert!(edge <= place.x_left + 1e-9 && place.x_left < place.x);
                assert!(place.x < place.x_right && place.x_right <= system.width);
                edge = place.x_right;
                let chord = &reading.harmony.chords[place.chord];
                assert_eq!(
                    system.step_at(place.bass_stave, place.bass_y + 0.2),
                    chord.bass.diatonic()
                );
                assert_eq!(system.chord_at(place.x), Some(place));
            }
        }
        assert_eq!(seen, reading.harmony.chords.len());
    }
}
