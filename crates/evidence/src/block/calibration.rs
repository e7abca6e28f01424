//! Fitted by `cargo xtask bench fit blocks`. Not to be edited by hand.

/// What each sign adds to the weight (log10), in the order of `weight::told`; and what is added to all.
pub(super) const SLOPES: [f64; 11] =
    [2.2362, 0.7252, -0.0221, -0.2112, -0.6734, 2.5990, -1.4413, -1.5043, -0.0757, 0.2357, -0.3761];
pub(super) const OFFSET: f64 = -3.3321;
/// Simulated pairs that it was fitted to, and those of them that are of the rarer kind.
pub(super) const PAIRS: usize = 490;
/// Real pairs that stand beside them.
pub(super) const REAL_PAIRS: usize = 65;
pub(super) const OF_THE_RARER_KIND: usize = 204;
/// The network of windows: its units; what is taken from each input and what it is divided by; the weights of each
/// unit and what is added; the weights of the units, and last what is added.
pub(super) const HIDDEN: usize = 10;
pub(super) const MIDDLE: [f64; 11] =
    [-1.5885, -2.9279, 0.7678, 0.7797, 0.2880, 0.0025, -1.6766, 0.3295, 0.7640, 1.9818, 1.9424];
pub(super) const SPREAD: [f64; 11] =
    [1.1170, 0.7295, 0.2590, 0.2088, 0.0465, 0.1002, 1.0435, 0.2405, 0.3132, 0.3720, 0.6922];
pub(super) const WEIGHTS: [[f64; 11]; 10] = [
    [-0.0432, 0.2702, -0.0460, -0.0988, 0.5266, -0.1147, -0.1264, 0.1018, 0.8035, -0.1254, 0.3386],
    [0.7837, -0.4581, -0.1848, 0.0841, -0.0676, -0.0176, -0.0317, 0.0653, -0.0025, -0.1068, 0.3186],
    [-0.0804, 0.1074, -0.1735, 0.1234, 0.2709, 0.0387, 0.3213, -0.2083, 0.4660, 0.0885, 0.1934],
    [-0.1226, 0.1768, -0.0916, -0.0752, 0.3001, -0.0949, 0.0043, 0.0842, -0.9247, -0.1150, 0.1833],
    [-0.2285, -0.6554, 0.4259, 1.0570, -0.0452, 0.0308, -0.1155, 0.1340, 0.0596, -0.4503, 0.2299],
    [-0.2740, -0.4042, 0.7233, -0.2729, -0.2439, 0.0340, -0.0083, 0.0990, 0.3353, -0.0741, 0.0869],
    [0.1168, -0.0910, 0.0849, 1.3476, 0.1625, -0.0064, -0.1824, 0.0068, -0.0233, -0.0691, -0.2155],
    [-0.0453, 0.1252, 0.1353, 0.6981, -0.0028, -0.1494, -0.0014, 0.0026, 0.0190, 0.7998, 0.7171],
    [0.3776, -0.4856, -0.3881, -0.1319, 0.3728, -0.0109, -0.0390, 0.1365, -0.4753, -0.2827, 0.5746],
    [0.5037, -0.3284, -0.0582, 0.0682, -0.1068, 0.0698, -0.0472, -0.0953, 0.1895, -0.0330, 0.1558],
];
pub(super) const BIAS: [f64; 10] =
    [-0.3153, -0.1232, 0.2686, 0.5915, -1.0063, 0.4665, -0.3793, -0.3245, 0.4837, -0.1540];
pub(super) const OUT: [f64; 11] =
    [-0.9493, -0.9873, -0.5443, -0.9279, 1.4277, 0.7061, 1.1276, 1.0652, -0.9508, -0.6264, 0.2728];
/// What each sign of the masses adds to the weight (log10) of one design against two, in the order of `design::told`.
pub(super) const DESIGN_SLOPES: [f64; 8] = [1.8981, -0.2095, 0.6012, 0.3478, 0.2738, -0.6313, 2.1195, 1.7866];
pub(super) const DESIGN_OFFSET: f64 = -1.6793;
