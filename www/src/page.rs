//! Writes the parts into the template `www/index.html`. A place for a part is its name in double
//! braces. The security policy names, by hash, every inline script and style of the finished page
//! and allows nothing else: no request, no other script, no `style` attribute.

use std::path::Path;

use anyhow::{Context, Result, bail, ensure};
use base64::{Engine, engine::general_purpose::STANDARD};
use sha2::{Digest, Sha256};
use zopfli::{Format, Options};

use crate::bind::Bound;
use crate::site;

/// Where the page will stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Setting {
    /// Alone, as one file.
    Alone,
    /// In a folder with what makes it installable.
    Site,
}

/// Everything the page is made of.
pub(crate) struct Parts {
    template: String,
    style: String,
    boot: String,
    module: Bound,
}

impl Parts {
    /// Reads the hand-written parts from `folder` and joins `module` to them.
    pub(crate) fn read(folder: &Path, module: Bound) -> Result<Self> {
        let text = |name: &str| {
            let file = folder.join(name);
            std::fs::read_to_string(&file)
                // A browser reads line ends as \n, and the hashes are of what it reads.
                .map(|text| text.replace("\r\n", "\n"))
                .with_context(|| format!("{} cannot be read", file.display()))
        };
        Ok(Self {
            template: text("index.html")?,
            style: text("style.css")?,
            boot: text("boot.js")?,
            module,
        })
    }
}

/// The finished page.
pub(crate) fn assemble(parts: &Parts, setting: Setting) -> Result<String> {
    let glue = inert(&parts.module.glue);
    let boot = inert(&parts.boot);
    ensure!(!parts.style.contains("</"), "www/style.css may not contain </, which ends a style.");
    let wasm = compress(&parts.module.wasm)?;
    let html = fill(&parts.template, |name| match name {
        "style" => Some(parts.style.trim()),
        "glue" => Some(glue.trim()),
        "boot" => Some(boot.trim()),
        "module" => Some(wasm.as_str()),
        "beside" => Some(match setting {
            Setting::Alone => "",
            Setting::Site => site::HEAD,
        }),
        // Last, when the scripts and styles it speaks of are in place.
        "policy" => Some("{{policy}}"),
        _ => None,
    })?;
    let policy = policy(&html, setting)?;
    Ok(html.replacen("{{policy}}", &policy, 1))
}

/// JavaScript that cannot end the script element it stands in. The replaced strings can only occur
/// inside JavaScript strings, patterns and comments, where the added stroke changes nothing.
fn inert(script: &str) -> String {
    script.replace("</script", "<\\/script").replace("<!--", "<\\!--")
}

fn compress(bytes: &[u8]) -> Result<String> {
    let mut packed = Vec::new();
    zopfli::compress(Options::default(), Format::Gzip, bytes, &mut packed)?;
    Ok(STANDARD.encode(packed))
}

/// The names a template must have a place for, each exactly once.
const PLACES: [&str; 6] = ["policy", "beside", "style", "glue", "module", "boot"];

/// `template` with each place taken by what `part` has for its name. What is put in is not searched.
fn fill<'a>(template: &'a str, part: impl Fn(&str) -> Option<&'a str>) -> Result<String> {
    let mut html = String::new();
    let mut seen = Vec::new();
    let mut rest = template;
    while let Some((before, after)) = rest.split_once("{{") {
        let (name, after) = after
            .split_once("}}")
            .context("www/index.html opens a place with {{ and does not close it")?;
        let Some(text) = part(name) else {
            bail!("www/index.html has a place named {name:?}, and there is no such part.");
        };
        html.push_str(before);
        html.push_str(text);
        seen.push(name);
        rest = after;
    }
    html.push_str(rest);
    for place in PLACES {
        let count = seen.iter().filter(|name| **name == place).count();
        ensure!(
            count == 1,
            "www/index.html must have one place {{{{{place}}}}}, and it has {count}."
        );
    }
    Ok(html)
}

/// The policy for `html`: its own inline scripts and styles, and nothing from outside, but for what
/// stands beside it.
fn policy(html: &str, setting: Setting) -> Result<String> {
    let scripts: Vec<String> = elements(html, "script")?
        .into_iter()
        .filter(|(attributes, _)| !attributes.contains("type="))
        .map(|(_, text)| hash(text))
        .collect();
    let styles: Vec<String> =
        elements(html, "style")?.into_iter().map(|(_, text)| hash(text)).collect();
    let beside = match setting {
        Setting::Alone => "img-src data: blob:; worker-src data: blob:",
        // Browsers count the manifest's icons among the page's images.
        Setting::Site => {
            "img-src data: blob: 'self'; worker-src data: blob: 'self'; manifest-src 'self'"
        }
    };
    Ok(format!(
        "default-src 'none'; script-src 'wasm-unsafe-eval' {}; style-src {}; \
         {beside}; media-src data: blob:; font-src data:; \
         connect-src 'none'; form-action 'none'; base-uri 'none'",
        scripts.join(" "),
        styles.join(" ")
    ))
}

fn hash(text: &str) -> String {
    format!("'sha256-{}'", STANDARD.encode(Sha256::digest(text)))
}

/// The attributes and the text of each element `name` of `html`. For elements whose text is raw.
fn elements<'a>(html: &'a str, name: &str) -> Result<Vec<(&'a str, &'a str)>> {
    let (open, close) = (format!("<{name}"), format!("</{name}>"));
    let mut found = Vec::new();
    let mut rest = html;
    while let Some((_, after)) = rest.split_once(&open) {
        let inside = after.split_once('>').and_then(|(attributes, after)| {
            let (text, after) = after.split_once(&close)?;
            Some((attributes, text, after))
        });
        let (attributes, text, after) = inside
            .with_context(|| format!("www/index.html opens a {name} and does not close it"))?;
        found.push((attributes, text));
        rest = after;
    }
    Ok(found)
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEMPLATE: &str = "<meta content=\"{{policy}}\">{{beside}}<style>{{style}}</style>\
        <script>{{glue}}</script><script type=\"x\">{{module}}</script><script>{{boot}}</script>";

    fn parts(template: &str) -> Parts {
        Parts {
            template: template.into(),
            style: "p { color: red }".into(),
            boot: "boot();".into(),
            module: Bound { wasm: b"\0asm".to_vec(), glue: "let s = '</script>{{boot}}';".into() },
        }
    }

    #[test]
    fn each_part_stands_in_its_place_and_is_named_by_its_hash() -> Result<()> {
        let html = assemble(&parts(TEMPLATE), Setting::Alone)?;
        let scripts = elements(&html, "script")?;
        assert_eq!(scripts.len(), 3, "{html}");
        assert_eq!(scripts[0].1, r"let s = '<\/script>{{boot}}';");
        for (attributes, text) in scripts {
            assert_eq!(html.contains(&hash(text)), attributes.is_empty());
        }
        assert!(html.contains(&hash("p { color: red }")));
        assert!(!html.contains("{{policy}}"));
        Ok(())
    }

    #[test]
    fn only_a_site_may_have_a_worker_and_a_manifest() -> Result<()> {
        let alone = assemble(&parts(TEMPLATE), Setting::Alone)?;
        assert!(!alone.contains("manifest") && !alone.contains("'self'"), "{alone}");
        let site = assemble(&parts(TEMPLATE), Setting::Site)?;
        assert!(
            site.contains("manifest-src 'self'") && site.contains("rel=\"manifest\""),
            "{site}"
        );
        Ok(())
    }

    #[test]
    fn the_hash_is_the_one_browsers_compute() {
        // The example of the Content Security Policy Level 3 standard, on hashes.
        assert_eq!(
            hash("alert('Hello, world.');"),
            "'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng='"
        );
    }

    #[test]
    fn the_same_module_is_written_the_same_way() -> Result<()> {
        assert_eq!(compress(b"module")?, compress(b"module")?);
        Ok(())
    }

    #[test]
    fn a_template_with_a_place_too_few_or_too_many_is_refused() {
        for (template, part) in [
            (TEMPLATE.replace("{{style}}", ""), "{{style}}, and it has 0"),
            (TEMPLATE.replace("{{style}}", "{{style}}{{style}}"), "{{style}}, and it has 2"),
            (TEMPLATE.replace("{{style}}", "{{look}}"), "\"look\""),
            (TEMPLATE.replace("{{boot}}", "{{boot"), "does not close"),
        ] {
            match assemble(&parts(&template), Setting::Alone) {
                Err(error) => assert!(error.to_string().contains(part), "{error}"),
                Ok(html) => panic!("assembled: {html}"),
            }
        }
    }
}
