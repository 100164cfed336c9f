// Option parsing shared by the commands: Boost.Program_options with our messages and exit codes.
#pragma once

#include <boost/program_options.hpp>
#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "sim/school/seal.hpp"
#include "ui/command/command.hpp"

namespace quarterturn::command {

class Options {
public:
    //! name is the command, usage its one-line form, positional the names of the arguments without dashes;
    //! one that ends in "..." takes all the rest.
    Options(std::string name, std::string usage_line, std::vector<std::string> positional = {});

    //! Adds an option with a value (label, as in the usage) or, with an empty label, a flag.
    Options& option(const std::string& name, const std::string& label, const std::string& help);

    //! The same for an option that may be given several times.
    Options& each(const std::string& name, const std::string& label, const std::string& help);

    //! False if the command should stop with exit_code (help asked for, or wrong usage said on stderr).
    bool parse(const Arguments& a);
    int exit_code() const { return exit_code_; }

    bool has(const std::string& name) const { return values_.count(name) > 0; }
    std::string text(const std::string& name) const;
    std::vector<std::string> texts(const std::string& name) const;
    //! A number within bounds; on failure says so and sets failed().
    double number(const std::string& name, double low, double high, double fallback);
    bool failed() const { return failed_; }
    //! Says what is wrong with the call on stderr; failed() is set.
    void complain(const std::string& message);

private:
    std::string name_, usage_;
    std::vector<std::string> positional_;
    std::set<std::string> repeats_;
    boost::program_options::options_description visible_;
    boost::program_options::options_description hidden_;
    boost::program_options::variables_map values_;
    int exit_code_ = done;
    bool failed_ = false;
};

//! --key, read; false, with the reason said, if it is no key file. Without the option there is none.
bool key_option(const Options& o, std::optional<school::KeyPair>& keys);

//! The instructor's keys: those of the file, or, where there is none, new ones (made). nullopt, with the reason said.
std::optional<school::KeyPair> instructor_keys(const std::string& path, bool& made);

//! A whole text as a number; nullopt if it is none or not finite.
std::optional<double> to_number(const std::string& text);
//! Seed option: any whole number from 0.
std::optional<std::uint64_t> to_seed(const std::string& text);

}  // namespace quarterturn::command
