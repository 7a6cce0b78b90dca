// The form by which an order is asked for with other wishes.
#pragma once

#include "core/page/page_form.h"

namespace casebound {

class Situation;
struct Visit;

Form order_wishes(const Visit& visit, const Situation& situation);

}  // namespace casebound
