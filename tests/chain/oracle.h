// The oracle of the chain: what a careful person would say of a generated world, from what is told to what is paid.
// Linked to nothing of core and including nothing of it; slow and plain: it goes through every configuration that may
// be true, every part, every way of standing in and every count. Written from the text of the rules, which it holds:
//
// WHAT IS LEFT. A configuration is left when it agrees with everything that stands. Of one attribute the newest that
// was measured or read stands, else the newest of what was only said or assumed. A measured number agrees with a
// recorded one within the tolerance. A number further from every record than three quarters of the tolerance (the
// house's own figure), and hearsay that came later and says otherwise than what stands, are open doubts: then what
// would be left without the one, or by the other, may be true as well.
//
// WHAT FITS. On one configuration a group is right for a place when a statement that counts says so and none says no.
// A source that says both has made an exception: its no counts. A statement from memory counts only where nothing
// firmer is said of that group. "None needed" is a no to every group, and, where nobody says that one fits, means that
// there is no such place; from memory it means nothing where something firmer fills the place. The domain may rule a group out, or ask for a look first, where its condition holds; one that
// hinges on what nobody has told says nothing.
//
// WHERE TWO GROUPS ARE SAID TO FIT one configuration: if a source publishes that they do not replace each other, or two
// sources want quantities more than a tenth apart, sources disagree about both. If one stands in for the other there,
// both fit. Else it is asked which sources divide the place: those that give one group on one part of the line and
// another on another part, never both. A group that one of them gives
// here is in dispute when another of them puts this configuration on another side: it gives another group here and not
// this one, and the parts of the line that the two give them on are not each the other's likeliest counterpart (they
// share most). Where they are, both sources divide alike and call the part by two names. A group that none of them
// gives here waits when it is given on both sides of the division of one that gives another here: who gave it is blind
// to the division. A group given on one side only is not. What is said from memory divides nothing where something
// firmer is said of the place.
//
// STAND-INS. A group takes another's place on a configuration by a way of statements from the one to the other, each of
// which counts, holds there, asks for nothing more and is published as excluded by nobody; the ways between are not
// excluded with either end and not ruled out there; it is not itself ruled out, disputed or waiting there; and its
// domain does not object. Never in a place that takes the exact part only.
//
// WHICH PART. An item is right where a group of it is, by more than its seller's claim, here by one group and there by
// another, unless it is withdrawn or also in a group that is ruled out for that place there, or that a statement which
// counts says no of, whoever says yes. An item that is right on everything that may be true may be
// ordered; a place is settled when there is one, or when nothing is needed on everything that may be true.
//
// TOGETHER. A part that takes another's place only where a third is fitted as well is right when that third can go
// into its own place: the one place that somebody records it for, else the only one for its kind; a place for pieces
// and another than the first, in which nobody speaks against it, and with a part that can be had. What
// any way to the part needs on anything that may be true goes with it, and is needed on all of it, for nothing is bought
// that only some of what is left needs; two things never go into one place. Where such a
// part is right on all that may be true, the place is settled, and it may be ordered with what goes with it, wherever
// that costs least; what goes with it is then ordered whatever else is right in its place.
//
// HOW MUCH. The most that any of what is left wants; of fluid 3 % and 0.3 L more (the house's own figure); fluids of
// two groups never make up one filling. One piece serves one place. What is on order, here or on the shelf is counted
// once, a kit by what is in it; what went back reopens its place; what is fitted and right needs nothing; what an open
// job of another vehicle is to take from the shelf is not there. A kit may be ordered unless something in it is on
// record for the job and not right. What is in one that is on order or here serves all the same, unless another of its
// kind in it is right for no place that needs one.
//
// READY. Everything the job needs is settled and nothing holds it. What the domain holds waits. It is RIGHT ONLY IF
// when the answer would not stand without something said, assumed or remembered. The evidence said of the list is no
// firmer than the firmest way to what it needs.
//
// BESIDE IT. When every group that is right for a place, and can be bought, needs a new part in another place, as its
// domain says, and the first is ordered, or comes out and goes back, the other is ordered as well, however far the job
// itself reaches for it.
//
// LINES NOBODY LISTED. What the rows tell apart is all there is: every value that one of them speaks of, every value
// told of such an attribute, and something else, on which no condition holds.
//
// THE EVIDENCE OF A LINE is no firmer than the firmest way to what is ordered for it, and no weaker than the weakest
// row that speaks of it.
//
// WHILE IT IS OPEN. What it costs once it is known is the mean, by the shares built, of the cheapest order for each
// configuration that is left.
//
// THE CHEAPEST. Every count of every offer is tried: goods and carriage, free from a seller's threshold, at least his
// minimum, with packs added only to reach either.
#pragma once

#include <memory>

#include "world.h"

namespace chain {

Spoken judge(const World& world);

// Does an order (pieces bought, with what is here and on the shelf) serve every place on this configuration?
bool serves(const World& world, const std::vector<OrderLine>& order, int configuration);

// What may be true: what is left, and what the doubts allow.
std::vector<int> may_be_true(const World& world);
std::size_t left_of(const World& world);  // how many are left

}  // namespace chain
