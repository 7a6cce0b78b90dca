// Its domain name is not snake_case.
#include "harmless.h"

CASEBOUND_MANIFEST("Other-Case", instance_of<Harmless>)
