//! Press figures: numbers or marks at the foot of pages, put there (mainly in London, about 1680 to 1830) so that the work of
//! each man or press could be paid.
//!
//! Start at [`read()`]: a [`Table`] in, a [`Figured`] out. It counts who worked how much and when, finds formes that were worked
//! in two parts and copies that disagree, and asks of every two figures whether they run side by side, in turns or in blocks
//! more than chance would have it. [`picture()`] draws the whole.
//!
//! What a figure stands for differs from shop to shop: a man, a crew, a press (Todd, *Studies in Bibliography* 3, 1950, argues
//! for the man). So nothing here says more than "figure".

mod copies;
mod exact;
mod pairs;
mod picture;
mod read;
mod table;
mod work;

pub use copies::{Disagreement, Reading};
pub use exact::{chance_of_mixed, chance_of_runs};
pub use pairs::{Pair, Standing, Tail};
pub use picture::picture;
pub use read::{Figured, Formes, Parted, SheetFigures, read};
pub use table::{FormeName, MOST_ROWS, Row, Table, TableError};
pub use work::{Span, Work};
