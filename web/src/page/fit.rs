//! How large the staff is drawn: for the page's width, for a room that is read from afar, or
//! for what lies between the task and the keys of a phone on its side; and where in the window
//! it is seen.

use super::{dom, projection};
use crate::app::{App, Reveal};
use std::ops::Range;
use tastata::staff::{self, Layers, Look, Painted};

/// The staff space, in CSS pixels, for a staff of this width.
pub(super) fn space(app: &App, width: f64) -> f64 {
    match (app.view().reveal, thumb_room()) {
        (Some(reveal), _) => largest(app, reveal, width),
        (None, Some(room)) => snug(app, room, width),
        (None, None) => usual(width),
    }
}

/// Small enough for a few chords on a phone, large enough for a tablet on the stand.
fn usual(width: f64) -> f64 {
    (5.2 + width * 0.0078).clamp(7.5, 15.0)
}

/// The largest staff space at which the whole piece fits the projected screen, or
/// one that is still read from afar where it does not.
fn largest(app: &App, reveal: Reveal, width: f64) -> f64 {
    const SPACES: [f64; 11] = [28.0, 24.0, 21.0, 18.0, 16.0, 14.0, 13.0, 11.0, 10.0, 9.0, 8.0];
    // A phone is held in the hand; everything else is read from afar.
    let small = width < 600.0 || window_height() < 500.0;
    let least = if small { 8.0 } else { 13.0 };
    let room = projection::room_for_staff().unwrap_or(f64::MAX);
    let fits =
        |space: &f64| heights(app, projection::layers(reveal), width, *space).sum::<f64>() <= room;
    let found = SPACES.into_iter().filter(|space| *space >= least).find(fits);
    found.unwrap_or(if small { 9.0 } else { 14.0 })
}

/// How high each system is at this staff space, in CSS pixels: one narrower than the page
/// is drawn no larger than its share.
fn heights(app: &App, show: Layers, width: f64, space: f64) -> impl Iterator<Item = f64> {
    let look = Look { show, painted: Painted::Nothing, ..Look::new(width / space) };
    let systems = staff::draw(app.sketch(), app.reading(), &look).systems;
    systems.into_iter().map(move |system| system.height * width / system.width)
}

/// Windows lower than this, in CSS pixels, belong to phones that lie on their side.
const SHORT: f64 = 500.0;

/// The height of the desk while work is done on a phone.
fn thumb_desk() -> Option<f64> {
    let desk = dom::document()?.query_selector(".handheld .desk").ok()??;
    Some(desk.get_bounding_client_rect().height())
}

/// The height between the desk and the dock while work is done on a phone that lies on its
/// side.
fn thumb_room() -> Option<f64> {
    thumb_desk().filter(|_| window_height() < SHORT)?;
    let room = room();
    Some(room.end - room.start - 16.0)
}

/// From where to where music is seen, in CSS pixels down the window: under the task, above the
/// tools.
pub(super) fn room() -> Range<f64> {
    let dock = dom::document()
        .and_then(|d| d.query_selector(".dock").ok().flatten())
        .map_or(0.0, |d| d.get_bounding_client_rect().height());
    thumb_desk().unwrap_or(0.0)..window_height() - dock
}

/// The largest staff space at which each system is seen whole in this height.
fn snug(app: &App, room: f64, width: f64) -> f64 {
    const SPACES: [f64; 8] = [10.0, 9.0, 8.0, 7.5, 7.0, 6.5, 6.0, 5.5];
    let show = Look::new(width).show;
    let fits = |space: &f64| heights(app, show, width, *space).all(|height| height <= room);
    SPACES.into_iter().find(fits).unwrap_or(5.5)
}

/// The window's height in CSS pixels.
pub(super) fn window_height() -> f64 {
    dom::window().and_then(|w| w.inner_height().ok()).and_then(|h| h.as_f64()).unwrap_or_default()
}
