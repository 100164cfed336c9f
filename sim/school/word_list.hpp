// Words that open a pack: short, plain, told apart when they are said aloud.
#pragma once

#include <array>
#include <string_view>

namespace quarterturn::school {

inline constexpr std::array<std::string_view, 256> kWordList{
    "acorn",    "amber",   "anchor",  "apple",   "april",   "arrow",    "autumn",   "bacon",   "badge",   "bamboo",
    "banjo",    "barrel",  "basil",   "basket",  "beacon",  "beaver",   "bench",    "berry",   "birch",   "blanket",
    "blossom",  "bonnet",  "border",  "bottle",  "branch",  "breeze",   "brick",    "bridge",  "bronze",  "brush",
    "bucket",   "button",  "cabin",   "cactus",  "camel",   "candle",   "canoe",    "canvas",  "carbon",  "cargo",
    "carpet",   "carrot",  "castle",  "cedar",   "cellar",  "cherry",   "chimney",  "cinder",  "circle",  "cirrus",
    "clover",   "coast",   "cobalt",  "coffee",  "comet",   "compass",  "copper",   "coral",   "corner",  "cotton",
    "cradle",   "crane",   "crystal", "cushion", "cypress", "dagger",   "daisy",    "dawn",    "delta",   "desert",
    "diamond",  "dolphin", "donkey",  "door",    "dragon",  "drum",     "eagle",    "earth",   "easel",   "echo",
    "elbow",    "elder",   "ember",   "emerald", "engine",  "falcon",   "feather",  "fender",  "fern",    "ferry",
    "fiddle",   "field",   "finch",   "flannel", "flint",   "flower",   "forest",   "forge",   "fossil",  "fountain",
    "fox",      "garden",  "garlic",  "gate",    "ginger",  "giraffe",  "glacier",  "globe",   "glove",   "goose",
    "granite",  "grape",   "gravel",  "hammer",  "harbor",  "harvest",  "hazel",    "hedge",   "heron",   "hollow",
    "honey",    "hook",    "horizon", "horse",   "hotel",   "iceberg",  "indigo",   "island",  "ivory",   "jacket",
    "jasmine",  "jigsaw",  "jungle",  "kettle",  "kitchen", "kite",     "ladder",   "lagoon",  "lake",    "lamp",
    "lantern",  "larch",   "lemon",   "letter",  "lily",    "linen",    "lion",     "lizard",  "lobster", "locket",
    "lotus",    "lumber",  "magnet",  "maple",   "marble",  "market",   "meadow",   "melon",   "meteor",  "mill",
    "mirror",   "mitten",  "monsoon", "moon",    "morning", "mountain", "mushroom", "mustard", "nail",    "napkin",
    "needle",   "nest",    "nickel",  "north",   "nutmeg",  "oak",      "oasis",    "oat",     "ocean",   "olive",
    "onion",    "opal",    "orange",  "orbit",   "orchard", "otter",    "oven",     "owl",     "oyster",  "paddle",
    "palm",     "panda",   "paper",   "parrot",  "pasture", "peach",    "pearl",    "pebble",  "pelican", "pencil",
    "pepper",   "piano",   "pigeon",  "pillow",  "pine",    "planet",   "plum",     "pocket",  "pollen",  "pond",
    "poplar",   "poppy",   "prairie", "pumpkin", "quarry",  "quartz",   "quilt",    "rabbit",  "radish",  "raft",
    "rainbow",  "raven",   "ribbon",  "river",   "robin",   "rocket",   "rope",     "rose",    "rubber",  "saddle",
    "saffron",  "sail",    "salmon",  "sandal",  "satin",   "scarf",    "school",   "season",  "shadow",  "shell",
    "shovel",   "silver",  "siren",   "slipper", "snail",   "snow",     "sofa",     "spider",  "spoon",   "spruce",
    "squirrel", "stable",  "star",    "statue",  "storm",   "summer",
};

}  // namespace quarterturn::school
