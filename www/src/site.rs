//! The page as a site that can be installed: the page, a manifest, a worker that keeps it for use
//! without a network, and icons, all in one folder for any server of files.

use std::path::Path;

use anyhow::{Context, Result};
use sha2::{Digest, Sha256};

use crate::icon;

/// The manifest (W3C, *Web Application Manifest*). Addresses are relative, so that the folder may
/// stand anywhere.
const MANIFEST: &str = r##"{
  "name": "Tastata",
  "description": "Improvise an unmeasured fantasia from a bass.",
  "id": "./",
  "start_url": "./",
  "scope": "./",
  "display": "standalone",
  "background_color": "#fbf8f0",
  "theme_color": "#fbf8f0",
  "icons": [
    { "src": "icon-192.png", "sizes": "192x192", "type": "image/png", "purpose": "any" },
    { "src": "icon-512.png", "sizes": "512x512", "type": "image/png", "purpose": "any" },
    { "src": "icon-512.png", "sizes": "512x512", "type": "image/png", "purpose": "maskable" }
  ]
}
"##;

/// What the page of a site has in its head besides; the loader takes it out of copies.
pub(crate) const HEAD: &str = "<link data-beside rel=\"manifest\" href=\"tastata.webmanifest\">\
                               <link data-beside rel=\"apple-touch-icon\" href=\"icon-192.png\">";

/// Writes the site of `page` into `folder`; `worker` is the text of `www/worker.js`. The page comes
/// first, since the worker names it by its hash.
pub(crate) fn write(folder: &Path, page: &str, worker: &str) -> Result<()> {
    std::fs::create_dir_all(folder)
        .with_context(|| format!("The folder {} cannot be made", folder.display()))?;
    let save = |name: &str, bytes: &[u8]| {
        let file = folder.join(name);
        std::fs::write(&file, bytes)
            .with_context(|| format!("{} cannot be written", file.display()))
    };
    save("index.html", page.as_bytes())?;
    save("icon-192.png", &icon::png(192)?)?;
    save("icon-512.png", &icon::png(512)?)?;
    save("tastata.webmanifest", MANIFEST.as_bytes())?;
    let version: String = Sha256::digest(page).iter().map(|byte| format!("{byte:02x}")).collect();
    save("worker.js", worker.replace("{{version}}", &version).as_bytes())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_worker_names_the_page_by_its_hash() -> Result<()> {
        let folder = std::env::temp_dir().join(format!("tastata-site-{}", std::process::id()));
        write(&folder, "abc", "\"{{version}}\"")?;
        let worker = std::fs::read_to_string(folder.join("worker.js"))?;
        // The example of FIPS 180-2, appendix B.1.
        let hash = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(worker, format!("\"{hash}\""));
        assert!(std::fs::read(folder.join("icon-192.png"))?.starts_with(b"\x89PNG\r\n\x1a\n"));
        std::fs::remove_dir_all(folder)?;
        Ok(())
    }
}
