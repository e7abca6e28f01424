//! `reglet demo`: an invented town's order, printed, laid together and shown.

use super::blocks::Blocks;
use super::compare::Compare;
use super::measure::Measure;
use super::print::{write_copy, write_pair, write_picture};
use crate::say::{self, Progress};
use anyhow::{Context as _, Result};
use clap::Args;
use press::block::{BlockHistory, BlockKind, Surroundings};
use press::scenario::{Scenario, ScenarioKind, Sheet, Study};
use press::{CreaseWish, Founts};
use sheet::{Mm, Ppi};
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode, Stdio};

/// Print simulated copies of an invented town's order, lay them together and write the pages.
#[derive(Debug, Args)]
pub struct Demo {
    /// The folder that takes photographs and pages.
    #[arg(default_value = "reglet-demo")]
    folder: PathBuf,
    /// Do not open the page.
    #[arg(long)]
    no_open: bool,
}

/// The two things a historian asks of copies: a setting corrected at press, and the text set twice.
const STORIES: [(&str, ScenarioKind, u64); 2] = [
    ("corrected", ScenarioKind::SameSettingWithDifferences, ORDER_SEED),
    ("set-twice", ScenarioKind::DifferentSetting, ORDER_SEED),
];
/// A seed that draws a town's order with a head-piece, an initial and a border.
const ORDER_SEED: u64 = 10;
/// How many copies survive of the order of the page of many, and a seed that prints one corrected in plain places.
const COPIES: usize = 8;
const STUDY_SEED: u64 = 5;
/// A sheet pulled on a bad day: a few spaces have risen, and it was folded once since.
const BAD_DAY: Sheet = Sheet { level: LEVEL, ppi: PPI[0], seed: BAD_DAY_SEED };
const BAD_DAY_SEED: u64 = 21;
const RISEN: f64 = 0.02;
const CREASE: CreaseWish = CreaseWish { jump: Mm(0.5), fold: press::Fold::AfterPrinting };
/// An invented printer's coat of arms, through fifty years: how many impressions survive, and of which the year is said; the
/// others are to be dated.
const BLOCK: BlockHistory = BlockHistory {
    kind: BlockKind::Arms,
    size: Mm(60.0),
    impressions: 7,
    years: 52.0,
    rate: 0.5,
    plugged: false,
    level: LEVEL,
    ppi: PPI,
    among: Surroundings::Alone,
    seed: BLOCK_SEED,
};
const BLOCK_SEED: u64 = 3;
const IS_DATED: [bool; 7] = [true, false, true, true, false, true, true];
/// A little uneven ink and a slightly turned camera, as in any library's photographs.
const LEVEL: u8 = 1;
const PPI: [Ppi; 2] = [Ppi(300.0), Ppi(300.0)];

impl Demo {
    /// Prints, compares and shows.
    ///
    /// # Errors
    /// A folder that cannot be written to.
    pub fn run(&self) -> Result<ExitCode> {
        let progress = Progress::new(false);
        let founts = Founts::open().context("the founts of the press cannot be opened")?;
        let mut pages = Vec::new();
        for (story, kind, seed) in STORIES {
            progress.step(&format!("Composing and pulling two copies ({story})"));
            let scenario = Scenario { kind, level: LEVEL, ppi_a: PPI[0], ppi_b: PPI[1], seed };
            let printed = scenario.print(&founts).context("the copies cannot be printed")?;
            let names = [format!("order-{story}-copy-1"), format!("order-{story}-copy-2")];
            let [a, b] = write_pair(&printed, &self.folder, [&names[0], &names[1]], PPI)?;
            let page = self.folder.join(format!("order-{story}.html"));
            let spoken = Compare::with_page(&[&a, &b], &page, &PPI).carry_out(&progress)?;
            say::result(&format!("\n{} and {}\n{spoken}", a.display(), b.display()))?;
            pages.push(page);
        }
        pages.push(self.many(&founts, &progress)?);
        pages.push(self.block(&founts, &progress)?);
        pages.push(self.sheet(&founts, &progress)?);
        progress.end();
        say::result(
            "\nThese sheets are simulated: the town, its order and its printer are invented.\nThe pages:",
        )?;
        for page in &pages {
            say::result(&format!("  {}", page.display()))?;
        }
        if let Some(first) = pages.first()
            && !self.no_open
        {
            open(first);
        }
        say::result(
            "\nNow your own photographs:\n  reglet compare FIRST.jpg SECOND.jpg\n  reglet compare FOLDER/\n  reglet blocks FOLDER/\n  reglet measure ONE.jpg",
        )?;
        Ok(ExitCode::SUCCESS)
    }

    /// What survives of an order that was set twice, and corrected at press: the page of many copies.
    fn many(&self, founts: &Founts, progress: &Progress) -> Result<PathBuf> {
        let study = Study { copies: COPIES, level: LEVEL, ppi: [PPI[0]; 2], seed: STUDY_SEED };
        let stock = study.compose(founts).context("the copies cannot be composed")?;
        let folder = self.folder.join("copies");
        for copy in 0..COPIES {
            progress.step(&format!("Pulling copy {} of {COPIES}", copy + 1));
            let pull = study.pull(founts, &stock, copy).context("a copy cannot be pulled")?;
            write_copy(&pull, &folder.join(format!("copy-{}.jpg", copy + 1)), study.ppi_of(copy))?;
        }
        let page = self.folder.join("order-many-copies.html");
        let spoken = Compare::with_page(&[&folder], &page, &study.ppi[..1]).carry_out(progress)?;
        say::result(&format!("\n{}\n{spoken}", folder.display()))?;
        Ok(page)
    }
}

impl Demo {
    /// A woodcut coat of arms as it wore: the page of blocks.
    fn block(&self, founts: &Founts, progress: &Progress) -> Result<PathBuf> {
        progress.step("Cutting a block and pulling it through the years");
        let printed = BLOCK.print(founts).context("the block cannot be printed")?;
        let folder = self.folder.join("arms");
        let mut dates = Vec::new();
        for (i, (pull, year)) in printed.pulls.iter().zip(&printed.years).enumerate() {
            // Their order is not to be read from their names.
            let place = (i * 3 + 2) % printed.pulls.len();
            let path = folder.join(format!("arms-{}.jpg", place + 1));
            write_picture(&pull.picture, &path, BLOCK.ppi[i % 2])?;
            let is_dated = IS_DATED.get(i).copied().unwrap_or(false);
            dates.push((place, if is_dated { format!("{year:.0}") } else { "?".to_owned() }));
        }
        dates.sort();
        let dates: Vec<String> = dates.into_iter().map(|d| d.1).collect();
        let page = self.folder.join("arms-of-one-block.html");
        let spoken = Blocks::with_page(&folder, &page, &PPI[..1], &dates.join(",")).carry_out(progress)?;
        say::result(&format!("\n{}\n{spoken}", folder.display()))?;
        Ok(page)
    }
}

impl Demo {
    /// One sheet by itself, with what went wrong: the page of what was measured.
    fn sheet(&self, founts: &Founts, progress: &Progress) -> Result<PathBuf> {
        progress.step("Pulling a sheet on a bad day");
        let mut conditions = BAD_DAY.conditions();
        (conditions.ink.risen_spaces, conditions.paper.creases) = (RISEN, vec![CREASE]);
        let pull = BAD_DAY.print(founts, &conditions).context("the sheet cannot be printed")?;
        let path = self.folder.join("sheet-of-a-bad-day.jpg");
        write_picture(&pull.picture, &path, BAD_DAY.ppi)?;
        let page = self.folder.join("sheet-measured.html");
        let spoken = Measure::with_page(&path, &page, BAD_DAY.ppi).carry_out(progress)?;
        say::result(&format!("\n{}\n{spoken}", path.display()))?;
        Ok(page)
    }
}

/// Opens a page where there is a desktop; where there is none, the path has been said.
fn open(page: &Path) {
    let desktop = ["DISPLAY", "WAYLAND_DISPLAY"].iter().any(|v| std::env::var_os(v).is_some());
    let (program, may) = if cfg!(target_os = "macos") { ("open", true) } else { ("xdg-open", desktop) };
    if may {
        // No opener is no error: the reader can open the file by hand.
        Command::new(program).arg(page).stdout(Stdio::null()).stderr(Stdio::null()).spawn().ok();
    }
}
