// Not hostile: what the others of this folder spoil.
#include "wipers.h"

CASEBOUND_MANIFEST("wipers", instance_of<Wipers>)
