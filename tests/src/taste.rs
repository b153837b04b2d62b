//! What a person has asked their system for, and how an engine is made to believe it.

use std::io::Write;
use std::path::PathBuf;

use anyhow::Result;

use crate::packed::workspace;

/// What a person has asked their system for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Taste {
    /// Dark on light, with motion.
    Light,
    /// Light on dark, with motion.
    Dark,
    /// Dark on light, with as little motion as can be.
    Still,
}

impl Taste {
    /// A folder of settings that tells programs which draw with GTK whether things move.
    pub(crate) fn gtk(self) -> Result<PathBuf> {
        let folder = workspace().join(format!("target/browsers/gtk-{self:?}"));
        std::fs::create_dir_all(folder.join("gtk-3.0"))?;
        let moving = u8::from(self != Self::Still);
        let settings = format!("[Settings]\ngtk-enable-animations={moving}\n");
        // In one step, since another browser may be starting with it.
        let mut fresh = tempfile::NamedTempFile::new_in(&folder)?;
        fresh.write_all(settings.as_bytes())?;
        fresh.persist(folder.join("gtk-3.0/settings.ini"))?;
        Ok(folder)
    }
}
