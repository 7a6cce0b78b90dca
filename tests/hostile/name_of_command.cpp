// Called like a command.
#include "harmless.h"

CASEBOUND_MANIFEST("fits", instance_of<Harmless>)
