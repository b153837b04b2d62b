//! The page's side of Tastata: an [`app::App`] that knows no browser, and a
//! [`page`] that shows it, listens to fingers and keys, and makes it sound.

pub mod app;
pub mod page;
