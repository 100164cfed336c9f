// What sim/ tells by identity, said. Everything that is shown or printed about an attempt comes through here.
#pragma once

#include <string>
#include <vector>

#include "sim/bench/rule_id.hpp"
#include "sim/marking/ways.hpp"
#include "sim/practice/papers.hpp"
#include "sim/practice/part.hpp"
#include "sim/practice/refusal.hpp"
#include "sim/procedure/player.hpp"
#include "sim/school/said.hpp"
#include "ui/words/catalogue.hpp"
#include "ui/words/units.hpp"

namespace quarterturn::marking {
struct Marks;
struct RuleResult;
}  // namespace quarterturn::marking

namespace quarterturn::words {

// Names of things.
std::string name(faults::Cause c);       //!< "low supply pressure"
std::string meaning(faults::Cause c);    //!< one line: what is meant by it
std::string name(practice::Part p);      //!< "Vent terminal"
std::string meaning(practice::Part p);   //!< what it is or where it sits; empty for what is no thing
std::string name(faults::Sense s);       //!< "vent"
std::string name(bench::Competency c);   //!< "close out"
std::string name(practice::ScrewId s);   //!< "throttle screw"
std::string name(heater::Turn t);        //!< "left"
std::string name(heater::TestPoint p);   //!< "inlet"
std::string name(heater::Figure f);      //!< "CO2"
std::string name(heater::Tool t);        //!< "flat screwdriver"
std::string name(gas::GasKind k);        //!< "natural gas"
std::string name(heater::Fire f);        //!< "high fire"
std::string name(practice::Outcome o);   //!< "left in service"
std::string name(faults::FlameShape s);  //!< "flames short, sitting"
std::string name(faults::Remedy r);      //!< what is done about it
//! A button's words for an action: "Look at the vent".
std::string label(const practice::Action& a, const practice::Papers& papers);
//! A value in its unit.
std::string value(const practice::Value& v);
//! "a, b, c"
std::string listed(const std::vector<std::string>& items);
std::string listed(const std::vector<faults::Cause>& causes);  //!< by their names

// Sentences.
std::string say(const practice::Finding& f, const practice::Papers& p);
//! What one sign is: the sense's own words.
std::string say(faults::Sign s);
std::string say(const practice::Refused& r);
std::string say(const procedure::Told& advice);
std::string say(const school::Told& told);
std::string say(const procedure::Said& said, const practice::Papers& p);
//! The evidence of a rule, one sentence a remark.
std::string say(const marking::Remark& r);
//! Why it matters; empty for a way in which nothing is lost.
std::string teaches(marking::Way w);
//! What a rule looks at, for the marks page.
std::string watches(bench::RuleId r);
//! The sentences of all lost ways of a result, each once.
std::vector<std::string> lessons_of(const std::vector<marking::Remark>& remarks);
//! Passed or not, and what decided it.
std::string verdict(const marking::Marks& m, bool ended);
//! What a failed attempt failed on, a sentence each; empty if it passed.
std::vector<std::string> why_failed(const marking::Marks& m);
//! "critical", "fails", or nothing.
std::string gravity(const marking::RuleResult& r);
//! The competencies that earn nothing because nothing of them was done, listed; empty if none.
std::string not_exercised(const marking::Marks& m);
//! All remarks in one line.
std::string evidence_line(const std::vector<marking::Remark>& remarks);

//! What every first page says: practice, not a real appliance.
std::string caution();

// For the sentences of this folder: an entry, and if it counts something the other form and which value counts.
struct Entry {
    const char* one;
    const char* many = nullptr;
    std::size_t by = 0;
};
std::string filled(const Entry& e, const std::vector<practice::Value>& values);

}  // namespace quarterturn::words
