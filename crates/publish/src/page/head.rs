//! The head of a page of more than two: what was found, why it could be wrong, what was measured.

use std::fmt::Write as _;

use super::list;
use super::text::Text;

/// What is said above the pictures.
pub(super) struct Head<'m> {
    pub(super) title: &'m str,
    pub(super) verdict_words: &'m str,
    pub(super) findings: &'m [String],
    pub(super) cautions: &'m [String],
    pub(super) measures: &'m [(String, String)],
    /// What is to be heeded, under its titles.
    pub(super) heed: &'m [(&'m str, &'m [String])],
}

impl Head<'_> {
    pub(super) fn set(&self) -> String {
        let findings = list("reasons", self.findings);
        let cautions = list("cautions", self.cautions);
        let mut measures = String::new();
        for (term, what) in self.measures {
            let _ = writeln!(measures, "<dt>{}</dt>\n<dd>{}</dd>", Text(term), Text(what));
        }
        let mut heed = String::new();
        for (title, sentences) in self.heed {
            if !sentences.is_empty() {
                let sentences = list("warnings", sentences);
                let _ = write!(
                    heed,
                    "<aside class=\"heed\" aria-label=\"{title}\">\n<h2>{title}</h2>\n{sentences}</aside>\n"
                );
            }
        }
        format!(
            "<header class=\"verdict\">\n<p class=\"runner\">{}</p>\n<h1>{}</h1>\n</header>\n\
             <div class=\"argument\">\n<section class=\"why\">\n<h2>What was found</h2>\n{findings}</section>\n\
             <section class=\"doubt\">\n<h2>Cautions</h2>\n{cautions}</section>\n<section class=\"measures\">\n\
             <h2 class=\"unseen\">Measures</h2>\n<dl>\n{measures}</dl>\n</section>\n</div>\n{heed}",
            Text(self.title),
            Text(self.verdict_words),
        )
    }
}
