// Every comparison of ours with something outside the project: a table that the tests judge and that docs/validation.md
// prints.
#pragma once

#include <string>
#include <vector>

namespace quarterturn::validation {

struct Check {
    std::string quantity;
    std::string source;  //!< where the expected value comes from, with its mark
    double expected = 0;
    double ours = 0;
    std::string unit;
    double tolerance = 0;  //!< absolute, in the same unit
    std::string reason;    //!< why this tolerance
    std::string known;     //!< why it is known to miss; empty: it must hold
    bool holds() const;
};

struct Group {
    std::string title;
    std::string about;
    std::vector<Check> checks;
};

//! By subject, each in its file.
std::vector<Group> gas_checks();
std::vector<Group> flame_checks();
std::vector<Group> heater_checks();
Group running_and_starting();
Group lean_edge();
std::vector<Group> all_checks();

//! The page docs/validation.md.
std::string page(const std::vector<Group>& groups);
//! The page docs/signatures.md: what each fault alone does.
std::string signatures();
//! docs/sensitivities.md: what no outside source backs, and what would change.
std::string sensitivities();
//! The page docs/marks.md: every rule of the marks.
std::string marks_page();
//! The page docs/actions.md: every row of the actions.
std::string actions_page();
//! The picture docs/co-against-air-ratio.svg: CO and CO2 at high and low fire, natural gas and propane.
std::string co_picture();

}  // namespace quarterturn::validation
