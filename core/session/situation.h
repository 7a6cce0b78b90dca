// One vehicle of the yard met with the catalog: its line, what was told, what is left, and a judge for it.
// Built for one command and thrown away; never writes.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/ground/vin.h"
#include "core/reason/reasoner.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_vehicles.h"
#include "core/verdict/catalog.h"
#include "core/verdict/fits.h"
#include "core/verdict/narrowing.h"
#include "core/verdict/places.h"

namespace casebound {

class Situation : public VehicleView {
public:
    // Throws Error(no_input) when the vehicle's line is in no loaded pack.
    // `supposed`: only these configurations are left, whatever else was told; for asking what would be if.
    Situation(const Catalog& catalog, const Plugins& plugins, Vehicle vehicle, const std::vector<ToldFact>& told,
              const std::optional<Bits>& supposed = std::nullopt);

    std::string name() const override { return vehicle_.name; }
    std::string line() const override { return line_->key; }
    std::vector<PossibleValue> possible(std::string_view attribute) const override;
    std::vector<Told> told() const override;
    Evidence left_rests_on() const override;
    Holds holds(std::string_view condition) const override;

    // What says something else than what stands: what it would change is in doubt. What is seen side by side is both.
    void doubt(const std::vector<ToldFact>& clashes);

    // Its identification number says another model year than what was told allows.
    bool number_in_doubt() const;

    // Nothing of these attributes is in doubt any more: what is told of them was accepted by name.
    void settle(const std::vector<std::string>& attributes);
    const std::vector<std::string>& settled() const { return settled_; }

    // Attributes that nobody can get at.
    void cannot_reach(std::vector<std::string> attributes) { narrowing_.out_of_reach = std::move(attributes); }

    // What earlier orders took for true and nobody has measured since.
    void ordered_as_if(const std::vector<Accepted>& accepted);

    // The photos that show a reason: of what is told, or of a statement of the person's own.
    std::vector<Photo> photos_of(const Leaf& leaf) const;
    void statements_show(std::map<std::string, std::vector<Photo>, std::less<>> photos) {
        statement_photos_ = std::move(photos);
    }

    const std::vector<ToldFact>& entries() const { return entries_; }  // what it was made of
    const Vehicle& vehicle() const { return vehicle_; }
    const LineModel& model() const { return *line_; }
    const Narrowing& narrowing() const { return narrowing_; }
    const Judge& judge() const { return *judge_; }
    const Places& places() const { return *places_; }
    const Interchange& interchange() const { return *interchange_; }
    const Engine& engine() const { return engine_; }
    std::string headline() const;  // "Skerry Drover 2.6; pan depth 38 mm; 6 of 64 configurations left"

private:
    void see_beside(const ToldFact& entry);

    Vehicle vehicle_;
    const Vocabularies* words_;
    const LineModel* line_;
    Narrowing narrowing_;
    std::vector<Told> told_;
    std::vector<ToldFact> entries_;
    std::vector<std::string> settled_;
    std::map<std::string, std::vector<Photo>, std::less<>> statement_photos_;  // by the key of the source
    mutable std::map<std::string, Holds, std::less<>> held_;                   // conditions met so far
    Engine engine_;
    std::unique_ptr<Judge> judge_;
    std::unique_ptr<Interchange> interchange_;
    std::unique_ptr<Places> places_;
};

// Of one attribute: the same as typed, or numbers that agree within what measuring allows.
bool same_told(const Vocabularies& words, const ToldFact& one, const ToldFact& other);

// What is seen side by side, each once: "pan_rail+cooler_line".
std::string joined_values(const std::string& seen, const std::string& more);

// How the vehicle's papers bear on its identification number (49 CFR 565 binds North America only).
VinContext vin_context(const Vehicle& vehicle);

// Why its identification number cannot be of this line, by the model year; nothing where it can.
std::optional<std::string> number_outside(const LineModel& line, const Vehicle& vehicle);

}  // namespace casebound
