//! Two photographs: the record, and the page.

use super::Compare;
use super::opened::{Opened, warnings};
use crate::cmd::{outputs, plates};
use crate::files::{Named, write_whole};
use crate::say::Progress;
use anyhow::Result;
use evidence::Compared;
use publish::pictures::OnFrame;
use publish::record::Record;
use publish::report::page_model;
use sheet::scale::ScaleRequest;
use std::path::{Path, PathBuf};

impl Compare {
    /// The result, and the page that was written, if one was wanted.
    pub(super) fn pair(
        &self,
        named: [&Named; 2],
        asked: [ScaleRequest; 2],
        progress: &Progress,
    ) -> Result<(Record, Option<PathBuf>)> {
        progress.step("Reading both photographs");
        let (a, b) = rayon::join(|| Opened::open(named[0], &asked[0]), || Opened::open(named[1], &asked[1]));
        let [a, b] = [a?, b?];
        progress.step("Laying them together");
        let Compared { mut comparison, laid, .. } = evidence::compare(&a.reading, &b.reading);
        comparison.warnings.extend(warnings(&a, &b));
        let record = Record::new(comparison, [a.about.clone(), b.about.clone()]);
        let by_names = || outputs::default_page(Path::new(""), &a, &b);
        let page = self.results.page(by_names);
        if page.is_some() || self.results.plates.is_some() {
            progress.step("Drawing the pictures");
            let (ca, cb) = rayon::join(|| a.in_colour(), || b.in_colour());
            let drawn = OnFrame::new([ca?.rgb, cb?.rgb], [&a.reading, &b.reading], laid.as_ref());
            if let Some(page) = &page {
                let model = page_model(&record, &drawn, self.typed())?;
                write_whole(page, publish::page::page(&model).as_bytes())?;
            }
            if let Some(folder) = &self.results.plates {
                progress.step("Drawing the plates");
                plates::write(folder, &self.typed(), &[], |put| {
                    publish::plates::of_pair(&record, &drawn, put)
                })?;
            }
        }
        Ok((record, page))
    }
}
