// The colours of the drawing, by role, for day and evening. No meaning rests on colour alone.
#pragma once

#include <SFML/Graphics/Color.hpp>

namespace quarterturn::window {

struct Palette {
    sf::Color paper, sheet, shade, rule, ink, ink2;
    sf::Color accent, accent_tint;
    sf::Color gas, gas_mark, air, air_mark;
    sf::Color cold, cold_tint, hot, hot_tint;
    sf::Color flue, flue_mark, metal, metal_mark;
    sf::Color band, band_edge;
    sf::Color inverse, on_inverse;
    sf::Color flame_core, flame_mid, flame_pale, flame_rich, flame_tip, glow, chamber;
};

const Palette& day();
const Palette& evening();

sf::Color blend(sf::Color a, sf::Color b, double t);
sf::Color with_alpha(sf::Color c, double alpha);

}  // namespace quarterturn::window
