//! The speech of the piece: above each system a line that rises where the
//! playing dwells, to be pulled up or down by a finger.

use super::reader::tell;
use std::fmt::Write;
use tastata::reading::Reading;
use tastata::staff::System;
use tastata::words::page::said;

/// Staff spaces the line takes above a system.
pub(super) const BAND: f64 = 5.0;
/// Dwelling that fills the band, in seconds.
const FULL: f64 = 3.0;
/// The band's lowest and highest line, in staff spaces above the system.
const FLOOR: f64 = 0.8;
const CEILING: f64 = 4.6;

/// The line over one system, drawn above its top edge.
pub(super) fn markup(system: &System, reading: &Reading) -> String {
    let mut line = String::new();
    let mut grips = String::new();
    for place in &system.chords {
        let dwell = reading.performance.dwells.get(place.chord).map_or(0.0, |d| d.as_secs());
        let part = (dwell / FULL).sqrt().min(1.0);
        let y = -(FLOOR + part * (CEILING - FLOOR));
        let _ = write!(line, "{:.2},{y:.2} ", place.x);
        let _ = write!(
            grips,
            "<g class=\"dwell\" data-dwell=\"{}\"><title>{}</title>\
             <rect class=\"hit\" x=\"{:.2}\" y=\"-{BAND}\" width=\"{:.2}\" height=\"{BAND}\"/>\
             <circle cx=\"{:.2}\" cy=\"{y:.2}\" r=\".45\"/></g>",
            place.chord,
            tell(said::DWELLS, [&(place.chord + 1), &format!("{dwell:.1}")]),
            place.x_left,
            place.x_right - place.x_left,
            place.x,
        );
    }
    let up = -system.rise;
    format!(
        "<g class=\"speech\" transform=\"translate(0 {up:.2})\"><polyline points=\"{line}\"/>{grips}</g>"
    )
}

/// The dwelling, in percent of what the harmony asks for, after a finger has
/// pulled a chord's point `pixels` up from where it was at `percent`.
pub(super) fn pulled(percent: u16, pixels: f64) -> u16 {
    let pulled = f64::from(percent) + pixels * 2.5;
    (pulled / 5.0).round().clamp(0.0, 80.0) as u16 * 5
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pulling_stays_within_what_a_chord_can_dwell() {
        assert_eq!(pulled(100, 0.0), 100);
        assert_eq!(pulled(100, 10.0), 125);
        assert_eq!(pulled(100, -400.0), 0);
        assert_eq!(pulled(100, 4000.0), 400);
    }
}
