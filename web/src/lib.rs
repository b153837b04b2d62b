//! The page's side of Tastata: an [`app::App`] that knows no browser, and a
//! [`page`] that shows it, listens to fingers and keys, and makes it sound. With the
//! feature `api` in place of `page`, a library for the pages of others.

#[cfg(feature = "api")]
pub mod api;
#[cfg(feature = "page")]
pub mod app;
#[cfg(feature = "page")]
pub mod page;
