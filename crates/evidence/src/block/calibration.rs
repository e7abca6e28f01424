//! Fitted by `cargo xtask bench fit blocks`. Not to be edited by hand.

/// What each sign adds to the weight (log10), in the order of `weight::told`; and what is added to all.
pub(super) const SLOPES: [f64; 11] =
    [0.9150, -0.3913, -0.5970, -0.3170, -2.0397, 14.0956, -2.6572, -1.8797, 0.5374, 0.9385, -4.8072];
pub(super) const OFFSET: f64 = -12.9469;
/// Simulated pairs that it was fitted to, and those of them that are of the rarer kind.
pub(super) const PAIRS: usize = 449;
pub(super) const OF_THE_RARER_KIND: usize = 186;
/// The network of windows: its units; what is taken from each input and what it is divided by; the weights of each
/// unit and what is added; the weights of the units, and last what is added.
pub(super) const HIDDEN: usize = 10;
pub(super) const MIDDLE: [f64; 11] =
    [-1.6457, -2.9393, 0.7531, 0.7578, 0.2964, 0.0401, -1.6879, 0.3390, 0.7006, 1.9847, 2.1356];
pub(super) const SPREAD: [f64; 11] =
    [1.1064, 0.7448, 0.2608, 0.2161, 0.0542, 0.1540, 1.0320, 0.2426, 0.3339, 0.3703, 0.7198];
pub(super) const WEIGHTS: [[f64; 11]; 10] = [
    [-0.1363, 0.0674, -0.1999, -0.1160, 0.4565, 0.0501, -0.2909, 0.2625, 0.5975, -0.1340, 0.4943],
    [0.9169, -0.4199, -0.0404, 0.0838, -0.0733, -0.0339, -0.0163, -0.0341, 0.1000, -0.1345, 0.3279],
    [-0.1517, -0.1377, -0.2645, 0.0333, 0.1244, -0.1042, 0.3978, -0.2754, 0.2843, 0.1922, 0.1419],
    [-0.1405, 0.0487, -0.0567, -0.1000, 0.4085, -0.0282, -0.0973, 0.1311, -1.0214, -0.0156, 0.1536],
    [-0.1293, -0.5511, 0.7223, 0.9194, 0.0303, -0.1432, -0.2564, 0.1919, 0.0434, -0.2481, 0.3743],
    [-0.1182, -0.3241, 1.0937, -0.3443, -0.1994, -0.0148, -0.0009, 0.0597, 0.4481, -0.1478, 0.1396],
    [-0.0130, -0.0889, -0.0144, 1.3340, 0.0759, 0.1646, -0.2212, 0.0607, -0.0152, -0.2500, -0.2929],
    [-0.0111, 0.2842, 0.2949, 0.4825, -0.0786, -0.1023, 0.1034, 0.0718, 0.0024, 0.9723, 0.7433],
    [0.4708, -0.3288, -0.4319, -0.0090, 0.2323, 0.0360, 0.0147, 0.1853, -0.4761, -0.3417, 0.6670],
    [0.1667, -0.2424, 0.0750, 0.1769, 0.2477, 0.1828, 0.1447, 0.0147, 0.8157, 0.0389, 0.0662],
];
pub(super) const BIAS: [f64; 10] =
    [-0.1981, -0.1616, 0.2569, 0.5559, -0.9972, 0.3040, -0.2636, -0.0796, 0.6228, -0.6575];
pub(super) const OUT: [f64; 11] =
    [-0.8624, -1.1031, -0.5164, -0.9910, 1.3355, 0.8652, 1.0584, 1.0434, -0.9990, -0.9616, 0.2500];
/// What each sign of the masses adds to the weight (log10) of one design against two, in the order of `design::told`.
pub(super) const DESIGN_SLOPES: [f64; 8] = [1.7057, -0.2081, 0.7335, 0.5558, 0.4093, -1.2386, 1.7571, 1.4936];
pub(super) const DESIGN_OFFSET: f64 = -1.6270;
