//! The photographs and the ways of looking at them.

use std::fmt::Write as _;

use super::data_uri::data_uri;
use super::text::{Text, number};
use super::tiles;
use super::{ChangeModel, FrameBox, PageModel};
use crate::pictures::Tiled;

/// The ways of looking: the value in the markup, the word, what it does.
const WAYS: [(&str, &str, &str); 4] = [
    ("together", "together", "both inks laid over each other"),
    ("turns", "by turns", "one, then the other, in place"),
    ("apart", "apart", "side by side, moving as one"),
    ("changes", "changes", "the places that differ, one after another"),
];

/// The stage with its three photographs, the ways, and the walk through the places that differ.
pub(super) fn section(model: &PageModel) -> String {
    let Some(pictures) = &model.pictures else {
        return "<p class=\"nothing\">There is nothing to look at: no picture could be drawn.</p>\n".into();
    };
    let [first, second] = model.sides.each_ref().map(|side| side.file_name.as_str());
    let laid = pictures.together.is_some();
    let mut panes = String::new();
    let second_caption = if laid { "The second, laid onto the first" } else { "The second" };
    panes += &pane("first", &pictures.first, "The first", first, &model.changes);
    panes += &pane("second", &pictures.second, second_caption, second, &model.changes);
    if let Some(together) = &pictures.together {
        panes += &pane("both", together, "Together", "", &model.changes);
    }
    let ways = if laid { ways() } else { String::new() };
    let way = if laid { "together" } else { "apart" };
    let legend = if laid { LEGEND } else { NOT_LAID };
    let turning = if laid { TURNING } else { "" };
    let edge = if laid { EDGE } else { "" };
    let walking = if laid && !model.changes.is_empty() { WALKING } else { "" };
    let walk = walk(&model.changes, &model.no_changes, laid);
    let (zooming, keys) = (zooming("whole side"), keys("the whole side", true));
    format!(
        "<section id=\"looking\" class=\"looking\" aria-labelledby=\"looking-title\" data-way=\"{way}\">\n\
         <h2 id=\"looking-title\" class=\"unseen\">The photographs</h2>\n\
         <div class=\"bar\">\n{ways}<div class=\"tools\">\n{turning}{walking}{edge}{zooming}</div>\n</div>\n\
         <div class=\"stage\" tabindex=\"0\" role=\"group\" aria-label=\"The photographs\" \
         aria-describedby=\"keys\">\n{panes}</div>\n\
         <div class=\"rail\">\n{legend}{walk}{keys}</div>\n</section>\n"
    )
}

/// The choice of the way of looking.
pub(super) fn ways() -> String {
    let mut out =
        String::from("<fieldset class=\"ways\">\n<legend class=\"unseen\">Ways of looking</legend>\n");
    for (i, (value, word, gloss)) in WAYS.iter().enumerate() {
        let checked = if i == 0 { " checked" } else { "" };
        let _ = writeln!(
            out,
            "<label title=\"{gloss}\"><input type=\"radio\" name=\"way\" value=\"{value}\"{checked}><span>{word}</span></label>"
        );
    }
    out.push_str("</fieldset>\n");
    out
}

/// One photograph with its caption and the boxes of the places that differ.
fn pane(rank: &str, picture: &Tiled, caption: &str, file: &str, changes: &[ChangeModel]) -> String {
    let [w, h] = picture.whole_px;
    let sizes = tiles::sizes(picture);
    let mut boxes = String::new();
    for (i, change) in changes.iter().enumerate() {
        let doubtful = if change.doubtful { " doubtful" } else { "" };
        let _ = writeln!(
            boxes,
            "<i class=\"place{doubtful}\" style=\"{}\" data-number=\"{}\"></i>",
            position(change.frame),
            i + 1
        );
    }
    let name = if file.is_empty() { String::new() } else { format!(" <bdi>{}</bdi>", Text(file)) };
    let swatches = if rank == "both" { String::new() } else { format!("<i class=\"ink {rank}\"></i>") };
    let described = if rank == "both" {
        "Both inks laid over each other in two colours".to_owned()
    } else {
        format!("{caption}: {}", Text(file))
    };
    let image = format!(
        "<img width=\"{w}\" height=\"{h}\" alt=\"{described}\" draggable=\"false\" src=\"{}\">",
        data_uri("image/jpeg", &picture.whole)
    );
    window(rank, &sizes, &image, &boxes, &format!("{swatches}<b>{caption}</b>{name}"))
}

/// A window with its layer, as the script moves it: what is seen, the tiles over it, the marks over those.
pub(super) fn window(rank: &str, sizes: &str, seen: &str, marks: &str, caption: &str) -> String {
    format!(
        "<figure class=\"pane {rank}\">\n<div class=\"window\"><div class=\"layer\" data-sizes=\"{sizes}\">\n{seen}\n\
         <div class=\"tiles\" aria-hidden=\"true\"></div>\n<div class=\"marks\" aria-hidden=\"true\">{marks}\
         <i class=\"line-mark\" hidden></i><i class=\"twin\"></i></div>\n</div></div>\n\
         <figcaption>{caption}</figcaption>\n</figure>\n"
    )
}

/// A box as a place in its frame.
pub(super) fn position(b: FrameBox) -> String {
    let percent = |share: f64| if share.is_finite() { share.clamp(-1.0, 2.0) * 100.0 } else { 0.0 };
    format!(
        "left:{:.4}%;top:{:.4}%;width:{:.4}%;height:{:.4}%",
        percent(b.x),
        percent(b.y),
        percent(b.w),
        percent(b.h)
    )
}

/// A box as the script reads it: four shares of the frame.
pub(super) fn shares(b: FrameBox) -> String {
    let share = |share: f64| if share.is_finite() { share.clamp(-1.0, 2.0) } else { 0.0 };
    format!("{:.6} {:.6} {:.6} {:.6}", share(b.x), share(b.y), share(b.w), share(b.h))
}

/// The list of places, and the buttons that walk through it.
fn walk(changes: &[ChangeModel], none: &str, laid: bool) -> String {
    if !laid {
        return String::new();
    }
    if changes.is_empty() {
        return format!("<div class=\"walk\"><h3>Places that differ</h3>\n<p>{}</p></div>\n", Text(none));
    }
    let sure = changes.iter().filter(|c| !c.doubtful).count();
    let doubtful = changes.len() - sure;
    let count = match (sure, doubtful) {
        (_, 0) => format!("{sure}"),
        (0, _) => format!("{doubtful}, all doubtful"),
        _ => format!("{sure}, and {doubtful} doubtful"),
    };
    let items: String = changes.iter().enumerate().map(|(i, change)| place(i + 1, change)).collect();
    format!(
        "<div class=\"walk\">\n<h3 id=\"places\">Places that differ</h3>\n\
         <p class=\"count\">{count}</p>\n\
         <p id=\"said\" class=\"unseen\" role=\"status\"></p>\n\
         <ol class=\"places\" aria-labelledby=\"places\">\n{items}</ol>\n</div>\n"
    )
}

/// One place of the list.
fn place(n: usize, change: &ChangeModel) -> String {
    let doubtful = if change.doubtful { ", <em>doubtful</em>" } else { "" };
    let px = |rank: &str, [x, y, w, h]: [i64; 4]| {
        format!(
            "<span><i class=\"ink {rank}\"></i><span class=\"unseen\">{rank}: </span>{x}, {y}; {w} × {h} px</span>"
        )
    };
    format!(
        "<li><a href=\"#looking\" data-number=\"{n}\" data-box=\"{}\"><b>{}</b> <span class=\"score\">{}{doubtful}</span>\
         <span class=\"where\">{}{}{}</span></a></li>\n",
        shares(change.frame),
        Text(&change.class_words),
        number(change.score, 2),
        px("first", change.box_a_px),
        px("second", change.box_b_px),
        change.size_words.as_ref().map_or_else(String::new, |size| format!("<span>{}</span>", Text(size))),
    )
}

pub(super) const TURNING: &str = "<span class=\"turning\"><button type=\"button\" id=\"other\">show the other</button>\
    <button type=\"button\" id=\"by-itself\" aria-pressed=\"false\">turn by itself</button></span>\n";

pub(super) const WALKING: &str = "<span class=\"walking\"><button type=\"button\" id=\"previous\">previous place</button>\
    <button type=\"button\" id=\"next\">next place</button></span>\n";

/// A straight edge that the reader lays; only over two that lie on each other.
pub(super) const EDGE: &str = "<span class=\"ruling\"><button type=\"button\" id=\"edge\" aria-pressed=\"false\" \
    title=\"through any two places, over both\">straight edge</button>\
    <span id=\"edge-said\" class=\"unseen\" role=\"status\"></span></span>\n";

/// The tools that bring nearer; `whole` is what is seen when all is seen.
pub(super) fn zooming(whole: &str) -> String {
    format!(
        "<span class=\"zooming\">\
         <button type=\"button\" id=\"out\" aria-label=\"smaller\" title=\"smaller\">\u{2212}</button>\
         <button type=\"button\" id=\"whole\">{whole}</button>\
         <button type=\"button\" id=\"in\" aria-label=\"larger\" title=\"larger\">+</button>\
         <button type=\"button\" id=\"fill\" hidden>fill the screen</button></span>\n"
    )
}

pub(super) const LEGEND: &str = "<ul class=\"legend\" aria-label=\"What the inks mean\">\n\
    <li><i class=\"ink first\"></i>ink only in the first</li>\n\
    <li><i class=\"ink second\"></i>ink only in the second</li>\n\
    <li><i class=\"ink both\"></i>ink in both</li>\n\
    <li><i class=\"ink unsure\"></i>hatched: unsure</li>\n\
    <li class=\"toggle\"><label><input type=\"checkbox\" id=\"boxes\" checked> box the places that differ</label></li>\n</ul>\n";

const NOT_LAID: &str = "<p class=\"not-laid\">The two could not be laid together, so they stand side by side \
    as they are. Equal places on the pictures need not be equal places in the print.</p>\n";

/// How it is used; `whole` is what <kbd>0</kbd> brings, and with the straight edge what that is for.
pub(super) fn keys(whole: &str, with_edge: bool) -> String {
    let edge = if with_edge { EDGE_KEYS } else { "" };
    format!(
        "<details class=\"keys\" id=\"keys\">\n<summary>By hand and by keyboard</summary>\n\
         <p>Drag to move, or press a place to bring it to the middle. Two fingers, or the wheel once the photograph \
         has been pressed, bring it nearer.</p>\n<p>On the photograph: <kbd>←</kbd> <kbd>→</kbd> <kbd>↑</kbd> <kbd>↓</kbd> \
         move, <kbd>+</kbd> <kbd>\u{2212}</kbd> nearer and farther, <kbd>0</kbd> {whole}, <kbd>1</kbd> to <kbd>4</kbd> \
         the ways of looking, <kbd>n</kbd> and <kbd>p</kbd> the next place and the one before, <kbd>space</kbd> the other \
         photograph.</p>\n{edge}</details>\n"
    )
}

const EDGE_KEYS: &str = "<p>A straight edge, <kbd>e</kbd>, lies in one place over both: press two letters in turn to lay it \
    through them, or move it with <kbd>[</kbd> <kbd>]</kbd> and lean it with <kbd>{</kbd> <kbd>}</kbd>. In one setting \
    it cuts the same letters in both.</p>\n";
