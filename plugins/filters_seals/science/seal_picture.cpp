#include "science/lip_seal.h"

namespace casebound::filters_seals {
namespace {

// Heights and the wall of the case: only to be seen, no lengths of any vehicle. Across it is to scale.
constexpr double kWall = 8, kCaseHeight = 12, kSealHeight = 7, kUnseenWall = 3, kStep = 5;

struct Across {
    const SealAcross& seal;
    Picture picture{"Section across bore and seal", "", {}};
    double below = kCaseHeight;  // where the next measure is drawn

    void box(double left, double top, double width, double height, std::string label, bool emphasis = false) {
        picture.shapes.push_back({Shape::Kind::box, left, top, width, height, std::move(label), emphasis});
    }
    void measured(std::string_view what, double across_mm, bool emphasis = false) {
        below += kStep;
        picture.shapes.push_back({Shape::Kind::line, -across_mm / 2, below, across_mm, 0,
                                  std::string(what) + " " + shown(across_mm) + " mm", emphasis});
    }
    void say(const std::string& text) {
        picture.text_equivalent += (picture.text_equivalent.empty() ? "" : " ") + text;
    }

    // "over the bore": how much of it is squeezed; "loose" where there is nothing to squeeze.
    void compared(const std::string& what, double more_mm, const std::string& over) {
        say(what + (more_mm > 0   ? ", " + shown(more_mm) + " mm more than " + over + ": it is tight there."
                    : more_mm < 0 ? ", " + shown(-more_mm) + " mm less than " + over + ": it is loose there."
                                  : ", as much as " + over + ": nothing holds it there."));
    }

    void draw() {
        const double bore = *seal.bore_mm, outside = seal.outside_mm.value_or(bore);
        const double inside = seal.lip_mm.value_or(seal.neck_mm.value_or(outside - 2 * kUnseenWall));
        box(-bore / 2 - kWall, 0, kWall, kCaseHeight, "case");
        box(bore / 2, 0, kWall, kCaseHeight, "");
        const double wall = (outside - inside) / 2, top = (kCaseHeight - kSealHeight) / 2;
        if (wall > 0)
            for (const double left : {-outside / 2, inside / 2})
                box(left, top, wall, kSealHeight, left < 0 ? "seal" : "", true);
        if (seal.neck_mm) box(-*seal.neck_mm / 2, -kStep, *seal.neck_mm, kCaseHeight + kStep, "filter neck");
        measured("bore", bore);
        say("Across the bore, to scale; heights are not. The bore is " + shown(bore) + " mm.");
        if (seal.outside_mm) {
            measured("seal outside", outside, true);
            compared("The seal is " + shown(outside) + " mm outside", outside - bore, "the bore");
        }
        if (seal.neck_mm) measured("neck", *seal.neck_mm);
        if (seal.lip_mm) measured("lip, free", *seal.lip_mm, true);
        if (seal.neck_mm && seal.lip_mm)
            compared("The neck is " + shown(*seal.neck_mm) + " mm", *seal.neck_mm - *seal.lip_mm,
                     "the lip of " + shown(*seal.lip_mm) + " mm");
    }
};

}  // namespace

std::optional<Picture> seal_picture(const SealAcross& seal) {
    if (!seal.bore_mm || (!seal.outside_mm && !seal.neck_mm)) return std::nullopt;
    Across across{seal};
    across.draw();
    return std::move(across.picture);
}

}  // namespace casebound::filters_seals
