//! Fitted by `cargo xtask bench fit blocks`. Not to be edited by hand.

/// What each sign adds to the weight (log10), in the order of `weight::told`; and what is added to all.
pub(super) const SLOPES: [f64; 5] = [-0.6256, -0.9746, 0.2933, 0.2810, 0.2529];
pub(super) const OFFSET: f64 = -1.0020;
/// Simulated pairs that it was fitted to, and those of them that are of the rarer kind.
pub(super) const PAIRS: usize = 1348;
/// Real pairs that stand beside them.
pub(super) const REAL_PAIRS: usize = 65;
pub(super) const OF_THE_RARER_KIND: usize = 552;
/// The network of windows: its units; what is taken from each input and what it is divided by; the weights of each
/// unit and what is added; the weights of the units, and last what is added.
pub(super) const HIDDEN: usize = 10;
pub(super) const MIDDLE: [f64; 11] =
    [-1.4739, -2.7794, 0.7220, 0.7363, 0.2815, 0.0010, -1.5656, 0.3430, 0.7301, 1.9888, 1.9258];
pub(super) const SPREAD: [f64; 11] =
    [1.0749, 0.6827, 0.2728, 0.2219, 0.0445, 0.1107, 1.0284, 0.2408, 0.2921, 0.3858, 0.7005];
pub(super) const WEIGHTS: [[f64; 11]; 10] = [
    [-0.2035, 0.2521, -0.0589, -0.2603, 0.3982, 0.0607, 0.0216, -0.0393, 0.6616, 0.0102, 0.1176],
    [0.8069, -0.5012, -0.0823, 0.0355, -0.0823, 0.0568, 0.0488, -0.0894, 0.0478, -0.0288, 0.1574],
    [0.0219, -0.1024, -0.0749, -0.0869, 0.1929, -0.1709, 0.0878, -0.4217, -0.0565, 0.0947, -0.0277],
    [-0.0905, -0.0855, -0.1099, -0.0720, 0.3460, 0.0185, 0.1179, 0.0542, -0.8950, 0.0495, 0.0817],
    [-0.0410, -0.3772, 0.5218, 1.3919, 0.0459, 0.0605, -0.0980, 0.0112, 0.0365, -0.1146, 0.1142],
    [-0.0135, -0.1823, 0.5273, -0.0472, -0.1313, -0.0402, -0.1780, -0.0936, -0.1141, 0.0622, 0.0830],
    [0.0255, -0.0461, 0.2430, 0.8444, 0.0267, -0.0265, -0.1061, 0.0170, 0.0232, -0.1773, -0.1685],
    [-0.3030, -0.4807, -0.0636, -0.0038, -0.1614, 0.0046, 0.0756, 0.1617, 0.2434, 0.0885, 0.2272],
    [0.2580, -0.0511, -0.2654, -0.0012, 0.1252, -0.0471, -0.1925, 0.1128, -0.1953, -0.4105, 0.4626],
    [0.7154, -0.3994, -0.0780, 0.2215, -0.0608, 0.0114, -0.0759, 0.2282, 0.0839, -0.2205, 0.4246],
];
pub(super) const BIAS: [f64; 10] =
    [-0.1693, -0.1923, 0.4620, 0.4003, -1.4893, 0.4888, -0.4678, 0.4315, 0.1617, -0.4099];
pub(super) const OUT: [f64; 11] =
    [-0.8115, -0.9458, -0.4573, -0.9251, 1.6645, 0.5898, 0.9168, 0.6302, -0.7494, -0.9740, 0.3453];
/// What each sign of the masses adds to the weight (log10) of one design against two, in the order of `design::told`.
pub(super) const DESIGN_SLOPES: [f64; 11] =
    [1.1666, 0.2237, 1.0496, 0.9854, 0.9445, -0.9004, 1.2112, 0.3412, 0.0806, 1.2800, -0.3269];
pub(super) const DESIGN_OFFSET: f64 = -0.3967;
