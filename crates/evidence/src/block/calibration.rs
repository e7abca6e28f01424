//! Fitted by `cargo xtask bench fit blocks`. Not to be edited by hand.

/// What each sign adds to the weight (log10), in the order of `weight::told`; and what is added to all.
pub(super) const SLOPES: [f64; 5] = [-0.5577, -0.8745, 0.3081, 0.2603, 0.2457];
pub(super) const OFFSET: f64 = -1.1512;
/// Simulated pairs that it was fitted to, and those of them that are of the rarer kind.
pub(super) const PAIRS: usize = 446;
/// Real pairs that stand beside them.
pub(super) const REAL_PAIRS: usize = 65;
pub(super) const OF_THE_RARER_KIND: usize = 182;
/// The network of windows: its units; what is taken from each input and what it is divided by; the weights of each
/// unit and what is added; the weights of the units, and last what is added.
pub(super) const HIDDEN: usize = 10;
pub(super) const MIDDLE: [f64; 11] =
    [-1.5697, -2.8504, 0.7315, 0.7440, 0.2819, -0.0006, -1.6256, 0.3401, 0.7304, 1.9905, 1.9474];
pub(super) const SPREAD: [f64; 11] =
    [1.1009, 0.7024, 0.2727, 0.2203, 0.0446, 0.1081, 1.0316, 0.2412, 0.2917, 0.3756, 0.6934];
pub(super) const WEIGHTS: [[f64; 11]; 10] = [
    [-0.1446, 0.2567, -0.1454, -0.1324, 0.4447, 0.0275, -0.2023, 0.3708, 0.2799, -0.1067, 0.4146],
    [0.9237, -0.5703, -0.1454, 0.0878, -0.1277, -0.0287, -0.1344, 0.0402, 0.0759, -0.2244, 0.3702],
    [-0.1839, -0.0885, -0.1811, -0.0517, 0.2623, -0.1215, 0.1228, -0.4097, 0.2853, 0.1390, 0.0723],
    [-0.0462, -0.0211, -0.2007, -0.0149, 0.3692, 0.1417, 0.1338, 0.0168, -0.8442, 0.0285, 0.0716],
    [-0.0973, -0.7004, 0.5906, 1.1563, 0.0877, -0.0091, -0.1220, 0.0323, 0.1430, -0.1130, 0.0571],
    [-0.1631, -0.1032, 0.7349, 0.2257, 0.0831, -0.0267, -0.1018, -0.0962, 0.2426, -0.1312, 0.2158],
    [-0.0272, -0.5261, -0.2372, 0.3886, -0.0874, 0.0847, -0.0619, 0.0683, 0.0991, -0.6895, -0.4581],
    [-0.2621, -0.1989, -0.0450, 0.0532, -0.1956, 0.0228, 0.0961, 0.1600, 0.1581, 0.5446, 0.5806],
    [0.3301, -0.3324, -0.3763, -0.1423, 0.2721, -0.1176, 0.0481, 0.0510, -0.4762, -0.4592, 0.4447],
    [0.2428, -0.1990, 0.1576, 0.1700, 0.2258, 0.1651, 0.2638, -0.0644, 0.6876, 0.2243, -0.0403],
];
pub(super) const BIAS: [f64; 10] =
    [-0.0133, -0.1651, 0.4467, 0.4399, -1.0352, 0.4264, -0.6405, 0.4822, 0.3713, -0.6206];
pub(super) const OUT: [f64; 11] =
    [-0.6878, -1.2666, -0.5175, -0.8193, 1.4192, 0.5888, 1.0095, 0.7298, -0.8109, -0.9439, 0.1781];
/// What each sign of the masses adds to the weight (log10) of one design against two, in the order of `design::told`.
pub(super) const DESIGN_SLOPES: [f64; 8] = [0.6702, -0.3576, 2.2986, 1.1606, 1.1197, -1.1850, 1.0079, 1.1332];
pub(super) const DESIGN_OFFSET: f64 = -1.1586;
