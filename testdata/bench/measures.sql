-- What waterward measures of each proposal, in metres, within 1000 ft (304.8 m).

-- What looks for the nearest of a layer ends at the first, and PostgreSQL runs no join
-- that does so in parallel. In a function it does.
SELECT format('CREATE FUNCTION %1$s_nearest(f geometry) RETURNS float8 LANGUAGE sql STABLE PARALLEL SAFE COST 10000 AS
    ''SELECT ST_Distance(s.geom, f) FROM %1$I s WHERE ST_DWithin(s.geom, f, 304.8) ORDER BY s.geom <-> f LIMIT 1''', layer)
FROM unnest(ARRAY['mhw', 'mlw', 'seagrass', 'wetlands', 'riparian', 'survey_edge']) AS layer \gexec

-- The greatest distance from a shore, of points every 0.1 m of the outline: PostGIS has
-- no exact one. No point has its nearest shore farther away than the footprint's own
-- nearest and its diagonal together, so only the pieces within that are asked.
SELECT format('CREATE FUNCTION %1$s_farthest(f geometry, nearest float8) RETURNS float8 LANGUAGE sql STABLE PARALLEL SAFE COST 100000 AS
    ''SELECT max(ST_Distance(p.geom, near.lines))
      FROM (SELECT ST_Collect(s.geom) AS lines FROM %1$I s WHERE ST_DWithin(s.geom, f, nearest + ST_Length(ST_BoundingDiagonal(f)))) near,
           ST_DumpPoints(ST_Segmentize(ST_Boundary(f), 0.1)) p''', layer)
FROM unnest(ARRAY['mhw', 'mlw']) AS layer \gexec

-- The part of a footprint that areas cover, which may overlap one another.
SELECT format('CREATE FUNCTION %1$s_overlap(f geometry) RETURNS float8 LANGUAGE sql STABLE PARALLEL SAFE COST 10000 AS
    ''SELECT coalesce(ST_Area(ST_Intersection(f, ST_Union(s.geom))), 0) FROM %1$I s WHERE ST_Intersects(s.geom, f)''', layer)
FROM unnest(ARRAY['seagrass', 'wetlands']) AS layer \gexec

-- The named areas that a footprint touches.
SELECT format('CREATE FUNCTION %1$s_touched(f geometry) RETURNS text LANGUAGE sql STABLE PARALLEL SAFE COST 10000 AS
    ''SELECT string_agg(s.id, ''''; '''' ORDER BY s.id) FROM %1$I s WHERE ST_Intersects(s.geom, f)''', layer)
FROM unnest(ARRAY['habitat', 'preserve']) AS layer \gexec

CREATE FUNCTION channel_nearest(f geometry) RETURNS float8 LANGUAGE sql STABLE PARALLEL SAFE COST 10000 AS
    'SELECT min(greatest(ST_Distance(s.geom, f) - s.half, 0)) FROM channels s WHERE ST_DWithin(s.geom, f, 304.8)';

-- How far from it a survey says what is there; beyond, nothing found is not nothing there.
CREATE FUNCTION surveyed_to(f geometry) RETURNS float8 LANGUAGE sql STABLE PARALLEL SAFE COST 10000 AS
    'SELECT least(304.8, survey_edge_nearest(f)) FROM surveyed s WHERE ST_Covers(s.geom, f)';

-- The shore behind it: of each line, the stretch between the outermost feet of the
-- corners. bank is how long that is, shores how many lines, parcels the parcels within
-- 30 ft of it, asked every 10 ft; unmapped whether a line may end beside it.
CREATE TYPE bank AS (bank float8, shores int, parcels text, unmapped boolean);
CREATE FUNCTION behind(f geometry, nearest float8) RETURNS bank LANGUAGE sql STABLE PARALLEL SAFE COST 100000 AS $$
    WITH near AS MATERIALIZED (
        SELECT * FROM mhw s WHERE ST_DWithin(s.geom, f, nearest + ST_Length(ST_BoundingDiagonal(f)))
    ), foot AS (
        SELECT DISTINCT ON (p.path) line, around, start + ST_LineLocatePoint(near.geom, p.geom) * ST_Length(near.geom) AS station
        FROM ST_DumpPoints(ST_Boundary(f)) p, near ORDER BY p.path, ST_Distance(near.geom, p.geom)
    ), seamless AS ( -- around a closed line, from half of it before the first foot to half of it beyond
        SELECT line, around, station - coalesce(around * round((station - first_value(station) OVER (PARTITION BY line)) / around), 0) AS at
        FROM foot
    ), stretch AS (
        SELECT line, around, min(at) AS first, max(at) AS last, ceil((max(at) - min(at)) / 3.048)::int AS steps
        FROM seamless GROUP BY line, around
    ), spot AS (
        SELECT line, CASE WHEN around IS NULL THEN at ELSE at - around * floor(at / around) END AS station
        FROM stretch, generate_series(1, steps) step, LATERAL (SELECT first + (step - 0.5) / steps * (last - first) AS at) along
    ), place AS (
        SELECT (SELECT ST_LineInterpolatePoint(s.geom, least(1, (station - s.start) / ST_Length(s.geom)))
                FROM mhw s WHERE s.line = spot.line AND s.start = floor(station / 60)::int * 60) AS geom
        FROM spot
    )
    SELECT (SELECT sum(last - first) FROM stretch), (SELECT count(*) FROM stretch)::int,
           (SELECT string_agg(DISTINCT owner.parcel_id, '; ' ORDER BY owner.parcel_id)
            FROM place, LATERAL (SELECT p.parcel_id FROM parcels p WHERE ST_DWithin(p.geom, place.geom, 9.144)
                                 ORDER BY p.geom <-> place.geom LIMIT 1) owner),
           EXISTS (SELECT FROM shore_end e WHERE ST_DWithin(e.geom, f, nearest + ST_Length(ST_BoundingDiagonal(f))))
$$;

CREATE UNLOGGED TABLE nearest AS
SELECT id, geom, mhw_nearest(geom), mlw_nearest(geom), surveyed_to(geom) FROM footprint;

CREATE UNLOGGED TABLE measured AS
SELECT id, ST_Area(geom) AS area, ST_Length(ST_BoundingDiagonal(geom)) AS diagonal,
       mhw_nearest, mhw_farthest(geom, mhw_nearest), mlw_nearest, mlw_farthest(geom, mlw_nearest), surveyed_to,
       seagrass_nearest(geom), seagrass_overlap(geom), wetlands_nearest(geom), wetlands_overlap(geom),
       channel_nearest(geom), riparian_nearest(geom), habitat_touched(geom), preserve_touched(geom),
       behind(geom, mhw_nearest) -- kept whole: each part asked for would call it again
FROM nearest;

-- A centreline just beyond what is looked at can have its edge within it.
ALTER TABLE measured ADD channels_to float8;
UPDATE measured SET channels_to = least(surveyed_to, 304.8 - (SELECT max(half) FROM channels)) WHERE surveyed_to IS NOT NULL;
