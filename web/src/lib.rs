//! The page's side of Tastata.
