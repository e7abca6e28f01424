//! What is finer than the whole side, kept in the page and decoded only where it is looked at.

use super::data_uri::base64;
use crate::pictures::{PictureSet, TILE, Tiled};

/// The sizes of a picture as the script reads them: the whole's, then the finer ones', the finest first.
pub(super) fn sizes(picture: &Tiled) -> String {
    let all = std::iter::once(picture.whole_px).chain(picture.levels.iter().map(|level| level.size_px));
    all.map(|[w, h]| format!("{w}x{h}")).collect::<Vec<_>>().join(" ")
}

/// The tiles of all pictures: a block of data each, a tile a line, in the order of [`sizes`] and row by row.
pub(super) fn blocks(pictures: Option<&PictureSet>) -> String {
    let Some(pictures) = pictures else { return String::new() };
    let mut out = String::new();
    let all = [
        ("first", Some(&pictures.first)),
        ("second", Some(&pictures.second)),
        ("both", pictures.together.as_ref()),
    ];
    for (name, picture) in all {
        out += &picture.map_or_else(String::new, |p| block_of(name, p));
    }
    out
}

/// The tiles of one picture, which the script knows by this name; nothing of one that is small.
pub(super) fn block_of(name: &str, picture: &Tiled) -> String {
    if picture.levels.is_empty() {
        return String::new();
    }
    let mut out =
        format!("<script type=\"text/plain\" class=\"tiles\" data-of=\"{name}\" data-side=\"{TILE}\">");
    for tile in picture.levels.iter().flat_map(|level| &level.tiles) {
        base64(&mut out, tile);
        out.push('\n');
    }
    out + "</script>\n"
}
