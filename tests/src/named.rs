//! The page as somebody knows it who sees nothing and has a keyboard: what has the focus, by role
//! and accessible name as the browser itself computes them, and the Tab key to get elsewhere.

use anyhow::{Context, Result, bail};
use serde_json::Value;

use crate::browser::{Browser, key};

/// What a screen reader would say of an element first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Named {
    /// Its role as in WAI-ARIA, such as `button`.
    pub role: String,
    /// Its accessible name.
    pub name: String,
}

impl Browser {
    /// What has the focus.
    ///
    /// # Errors
    ///
    /// When nothing has it.
    pub fn focused(&self) -> Result<Named> {
        let found = self.get("element/active")?;
        let id = found.as_object().and_then(|it| it.values().next()).and_then(Value::as_str);
        let id = id.context("Nothing has the focus")?;
        let told = |what: &str| -> Result<String> {
            let told = self.get(&format!("element/{id}/{what}"))?;
            Ok(told.as_str().unwrap_or_default().to_owned())
        };
        Ok(Named { role: told("computedrole")?, name: told("computedlabel")? })
    }

    /// Presses Tab until what has the focus has this role and a name that begins so.
    ///
    /// # Errors
    ///
    /// When 400 presses do not get there: says what was met on the way.
    pub fn tab_to(&self, role: &str, name: &str) -> Result<Named> {
        let mut met = Vec::new();
        for _ in 0..400 {
            self.keys(&key::TAB.to_string())?;
            let now = self.focused()?;
            if now.role == role && now.name.starts_with(name) {
                self.call_back()?;
                return Ok(now);
            }
            met.push(format!("{} “{}”", now.role, now.name));
        }
        met.dedup();
        bail!("No {role} “{name}” among: {}", met.join(", "))
    }
}
