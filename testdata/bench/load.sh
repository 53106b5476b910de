#!/usr/bin/env bash
# Loads the layers of a coast as they are, into the database that the environment
# names: ogr2ogr copies, two layers at a time, the largest first.
set -euo pipefail
coast=$1

layer() { # a layer and the properties that are used
  /usr/bin/ogr2ogr -q -f PostgreSQL "PG:" "$coast/$1.geojson" -nln "raw_$1" -select "$2" \
    -lco GEOMETRY_NAME=geom -lco SPATIAL_INDEX=NONE -lco UNLOGGED=ON -lco PRECISION=NO -nlt GEOMETRY -dim XY
}
export -f layer
export coast PG_USE_COPY=YES

xargs -P 2 -L 1 bash -c 'layer "$@"' layer <<'LAYERS'
seagrass id
parcels parcel_id
mlw id
mhw id
riparian id
proposals id,width_ft,diameter_ft
wetlands id
channels id,width_ft
habitat id
preserve id
surveyed id
LAYERS
