#include "ui/words/catalogue.hpp"

#include <cctype>
#include <clocale>
#include <libintl.h>

namespace quarterturn::words {

namespace {
constexpr const char* kDomain = "quarterturn";
}

void open_catalogue() {
    std::setlocale(LC_MESSAGES, "");
    bindtextdomain(kDomain, QUARTERTURN_CATALOGUE_DIR);
    bind_textdomain_codeset(kDomain, "UTF-8");
}

const char* tr(const char* english) { return *english ? dgettext(kDomain, english) : english; }

const char* tr_count(const char* one, const char* many, int n) {
    return dngettext(kDomain, one, many, static_cast<unsigned long>(n));
}

std::string sentence_case(std::string text) {
    if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
    return text;
}

}  // namespace quarterturn::words
