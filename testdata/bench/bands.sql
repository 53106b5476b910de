-- The limits near each proposal, as lines: 10 ft from mean high water, 30 ft from mean low
-- water, 25 ft from riparian lines, 50 ft from seagrass, within 100 ft of its bounds. On
-- either side of a shore: PostGIS does not know which is water.
SELECT format('CREATE FUNCTION %1$s_band(f geometry, d float8) RETURNS geometry LANGUAGE sql STABLE PARALLEL SAFE COST 100000 AS
    ''SELECT ST_Intersection(ST_Boundary(ST_Buffer(ST_Union(s.geom), d, 32)), ST_Expand(f, 30.48))
      FROM %1$I s WHERE s.geom && ST_Expand(f, 30.48 + d)''', layer)
FROM unnest(ARRAY['mhw', 'mlw', 'riparian', 'seagrass']) AS layer \gexec

CREATE UNLOGGED TABLE banded AS
SELECT id, mhw_band(geom, 3.048) AS mhw, mlw_band(geom, 9.144) AS mlw, riparian_band(geom, 7.62) AS riparian, seagrass_band(geom, 15.24) AS seagrass
FROM footprint;

-- What is measured as drawn: the shortest lines to each layer within 1000 ft.
SELECT format('CREATE FUNCTION %1$s_line(f geometry) RETURNS geometry LANGUAGE sql STABLE PARALLEL SAFE COST 10000 AS
    ''SELECT ST_ShortestLine(s.geom, f) FROM %1$I s WHERE ST_DWithin(s.geom, f, 304.8) ORDER BY s.geom <-> f LIMIT 1''', layer)
FROM unnest(ARRAY['mhw', 'mlw', 'seagrass', 'wetlands', 'riparian']) AS layer \gexec

CREATE UNLOGGED TABLE drawn AS
SELECT id, mhw_line(geom) AS mhw, mlw_line(geom) AS mlw, seagrass_line(geom) AS seagrass, wetlands_line(geom) AS wetlands, riparian_line(geom) AS riparian
FROM footprint;
