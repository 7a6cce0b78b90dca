// Every word that may appear in a pack or on the command line: core's own vehicle attributes, and what the
// loaded domains, the loaded packs, and domains that are known but not loaded today have declared.
// Knows no domain by name. Never loads anything itself.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound {

class Vocabularies {
public:
    template <class T> struct Owned {
        T word;
        std::string owner;
    };  // owner: "core", a domain, "pack NAME"
    template <class T> using Words = std::map<std::string, Owned<T>, std::less<>>;

    Vocabularies();  // core's own attributes and the item kind `kit`

    // Returns one message for each word another owner already declared differently; those are not taken.
    std::vector<std::string> add(const Vocabulary& vocabulary, const std::string& owner);

    const Words<Attribute>& attributes() const { return attributes_; }
    const Words<ItemKind>& item_kinds() const { return item_kinds_; }
    const Words<Role>& roles() const { return roles_; }
    const Attribute* attribute(std::string_view name) const;
    const ItemKind* item_kind(std::string_view name) const;
    const Role* role(std::string_view name) const;
    std::string owner_of_role(std::string_view name) const;  // "" when unknown

private:
    Words<Attribute> attributes_;
    Words<ItemKind> item_kinds_;
    Words<Role> roles_;
};

// The nearest of `words` by edits, or "" when none is near: for "did you mean".
std::string nearest(std::string_view word, const std::vector<std::string>& words);

std::string_view value_kind_name(ValueKind kind);    // "choice", "yes_no", ...
ValueKind value_kind_from(std::string_view name);    // throws std::invalid_argument
std::string_view evidence_name(Evidence evidence);   // as in packs: "common_practice"
std::string_view evidence_words(Evidence evidence);  // as shown: "common practice"
Evidence evidence_from(std::string_view name);       // throws std::invalid_argument
std::string_view verdict_words(Verdict verdict);     // "check first"
std::string_view verdict_name(Verdict verdict);      // "check_first", for JSON

}  // namespace casebound
