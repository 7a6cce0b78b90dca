// Its name is the first part of the toy domain's, so its tables could not be told apart.
#include "harmless.h"

CASEBOUND_MANIFEST("door", instance_of<Harmless>)
