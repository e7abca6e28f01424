//! What is to be printed, and by whom.

use schemars::JsonSchema;
use serde::Serialize;

use super::{Day, Pence, Place, Rates};

/// The most copies that are taken.
pub const MOST_COPIES: u32 = 10_000_000;
/// The most formes of all settings together.
pub const MOST_FORMES: u32 = 5_000;
/// The most settings of a text.
pub const MOST_SETTINGS: u32 = 20;
/// The most presses.
pub const MOST_PRESSES: u32 = 100;
/// The most places that copies are sent to.
pub const MOST_PLACES: usize = 200;
/// The most compositors.
pub const MOST_MEN: u32 = 100;

/// Which sides of the sheet are printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Sides {
    /// One side, as of a broadside.
    One,
    /// Both.
    Both,
}

/// How many men work a press.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Crew {
    /// Two: one beats, one pulls; a full press.
    Full,
    /// One man for both: a half press, at half the rate (5 quires an hour to 10: Moxon, as quoted by Savage 1841).
    Half,
}

/// In what portions a sheet comes from the compositor.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum SetBy {
    /// Page after page: both formes are whole when the sheet is.
    Pages,
    /// Forme after forme, from cast-off copy: the first can go to press while the second is set.
    Formes,
}

/// Paper.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Paper {
    /// Sheets wasted, or given over, as a share of those printed.
    pub waste: f64,
    /// Sheets to the ream: 480 (20 quires of 24), 500 (of 25), 516 (a printer's perfect ream).
    pub ream: u32,
}

/// What is paid for what.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Prices {
    /// A ream of paper.
    pub ream: Pence,
    /// Composing a sheet.
    pub composing: Pence,
    /// A token of press work.
    pub token: Pence,
    /// Correcting, as a share of composing.
    pub correction: f64,
    /// The master's overhead and profit, as a share of all labour.
    pub overhead: f64,
}

/// A job.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Plan {
    /// Copies wanted.
    pub copies: u32,
    /// Whole sheets in each copy.
    pub sheets: u32,
    /// Half-sheets in each copy: two copies of one are printed on a sheet, by work and turn, and cut apart.
    pub half_sheets: u32,
    /// Which sides are printed.
    pub sides: Sides,
    /// How often the whole text is set, so that as many formes of each can be at press at once; copies are shared out evenly.
    pub settings: u32,
    /// Compositors.
    pub compositors: u32,
    /// Presses.
    pub presses: u32,
    /// Crews: a press without one stands still.
    pub crews: u32,
    /// Men to a press.
    pub crew: Crew,
    /// How the text is set.
    pub set_by: SetBy,
    /// Rates.
    pub rates: Rates,
    /// The working day.
    pub day: Day,
    /// Paper.
    pub paper: Paper,
    /// Impressions to a token: 240, 250 or 258.
    pub token: u32,
    /// Prices, if costs are asked for.
    pub prices: Option<Prices>,
    /// Where the copies are to go, in the order in which they are sent.
    pub places: Vec<Place>,
}

impl Plan {
    /// A plan of so many copies of so many sheets, one setting, one compositor, one press; everything else as is usual.
    pub fn new(copies: u32, sheets: u32) -> Self {
        Self {
            copies,
            sheets,
            half_sheets: 0,
            sides: Sides::Both,
            settings: 1,
            compositors: 1,
            presses: 1,
            crews: 1,
            crew: Crew::Full,
            set_by: SetBy::Pages,
            rates: Rates::default(),
            day: Day::default(),
            // Two to five in a hundred: from memory. A ream of 500: 20 quires of 25, from memory.
            paper: Paper { waste: 0.03, ream: 500 },
            // Ten quires an hour, about 240 to 250 (Savage 1841, quoting Moxon).
            token: 250,
            prices: None,
            places: Vec::new(),
        }
    }

    /// Presses that have a crew.
    pub fn working_presses(&self) -> u32 {
        self.presses.min(self.crews)
    }

    /// Formes of one setting.
    pub fn formes(&self) -> u32 {
        match self.sides {
            Sides::Both => 2 * self.sheets + self.half_sheets,
            Sides::One => self.sheets + self.half_sheets,
        }
    }
}
