// Called like a table of core.
#include "harmless.h"

CASEBOUND_MANIFEST("groups", instance_of<Harmless>)
