//! Helpers shared by the tests that cross crates: browsers, and the page they open.

pub mod analyses;
mod browser;
pub mod chains;
pub mod chorales;
pub mod counts;
pub mod doors;
mod driver;
mod engine;
pub mod figured;
pub mod frame_report;
pub mod habit;
pub mod lesson;
pub mod madrigals;
pub mod midi_keys;
mod named;
mod oracle;
pub mod outer;
mod packed;
pub mod player;
pub mod room;
mod serve;
mod taste;
pub mod visit;
pub mod wrapped;

pub use browser::{Browser, Pointer, key};
pub use engine::{Engine, Need};
pub use named::Named;
pub use oracle::oracle;
pub use packed::{library, made, page, shot, site, workspace};
pub use serve::Server;
pub use taste::Taste;
