/// What every report says whatever its verdict.
pub const CAUTIONS: [&str; 7] = [
    "This is an estimate from a model and from listed values, not an approval; no result calls a part safe.",
    "A rod or piston that breaks at speed throws fragments: put a shield round the engine and stand clear of its plane.",
    "Start and stop from a distance, with a fuel or ignition cut that works when the engine does not answer.",
    "Fuel, hot parts and plastic burn: keep an extinguisher at hand and no loose fuel near.",
    "Wear eye and ear protection; bystanders too.",
    "Look at the part after each short run, and retire it at any crack, whitening, stretch or oval bore.",
    "Local rules come first; a licensed engineer decides where people or property depend on the part.",
];
