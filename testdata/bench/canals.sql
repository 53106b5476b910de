-- A check of what in a canal hangs on which bank is home, and no step of the pipeline.

-- How wide it is at a footprint, in metres: the shortest way that leads from the shore
-- nearest to a place of its outline through that place and on to the next shore, and
-- meets that one within 30 degrees of square; null if none does within 250 ft.
CREATE FUNCTION across(f geometry) RETURNS float8 LANGUAGE sql STABLE PARALLEL SAFE COST 100000 AS $$
    WITH near AS MATERIALIZED (
        SELECT ST_Collect(s.geom) AS shore FROM mhw s WHERE ST_DWithin(s.geom, f, 76.2)
    ), way AS (
        SELECT shore, foot, ST_MakeLine(place, ST_Translate(place, 76.2 * sin(azimuth), 76.2 * cos(azimuth))) AS ahead
        FROM near, ST_DumpPoints(ST_Segmentize(ST_Simplify(ST_Boundary(f), 0.02), 5)) p,
             LATERAL (SELECT p.geom AS place, ST_ClosestPoint(shore, p.geom) AS foot) placed,
             LATERAL (SELECT ST_Azimuth(foot, place) AS azimuth) turned
    ), met AS (
        SELECT shore, foot, ST_ClosestPoint(ST_Intersection(ahead, shore), ST_StartPoint(ahead)) AS far
        FROM way WHERE ST_Intersects(ahead, shore)
    ), width AS (
        SELECT shore, foot, far, ST_Distance(foot, far) AS across FROM met
    )
    SELECT min(across) FROM width -- half a metre before a shore met at an angle it is nearer than that
    WHERE across <= 76.2 AND ST_Distance(ST_LineInterpolatePoint(ST_MakeLine(far, foot), 0.5 / greatest(across, 0.5)), shore) > 0.5 * cos(radians(30))
$$;

-- The two banks of a canal: one wall and its head, and the other wall and its head. Walls
-- run from corner to corner; a head is shorter than 50 m and has a corner at either end,
-- to the same side.
CREATE UNLOGGED TABLE canal_bank AS
WITH shores AS (
    SELECT 'mhw' AS layer, line, geom FROM shore
    UNION ALL SELECT 'mlw', path[1], geom FROM (SELECT (ST_Dump(ST_LineMerge(ST_Collect(ST_Transform(geom, 990001))))).* FROM raw_mlw) AS merged
), vertex AS (
    SELECT layer, line, (p.dp).path[1] AS n, (p.dp).geom AS at FROM shores, LATERAL (SELECT ST_DumpPoints(geom) AS dp) p
), edge AS (
    SELECT *, ST_Distance(lag(at) OVER w, at) AS long, degrees(ST_Azimuth(at, lead(at) OVER w) - ST_Azimuth(lag(at) OVER w, at)) AS turned
    FROM vertex WINDOW w AS (PARTITION BY layer, line ORDER BY n)
), turn AS (
    SELECT layer, line, sum(long) OVER (PARTITION BY layer, line ORDER BY n) AS station, turned - 360 * round(turned / 360) AS turn FROM edge
), corner AS (
    SELECT *, lead(turn) OVER w AS next_turn, lead(station) OVER w AS head_end,
           coalesce(lag(station) OVER w, 0) AS wall_start, lead(station, 2) OVER w AS wall_end
    FROM turn WHERE abs(turn) > 55 WINDOW w AS (PARTITION BY layer, line ORDER BY station)
)
SELECT layer, ST_LineSubstring(geom, least(1, first / ST_Length(geom)), least(1, last / ST_Length(geom))) AS geom
FROM corner JOIN shores USING (layer, line),
     LATERAL (VALUES (wall_start, head_end), (station, coalesce(wall_end, ST_Length(geom)))) AS bank (first, last)
WHERE turn * next_turn > 0 AND head_end - station < 50;
CREATE INDEX ON canal_bank USING gist (geom);

-- Of the banks near a footprint the one within whose reach all of it lies soonest: that
-- reach, how long the stretch between the outermost feet of its corners is, and the
-- parcels behind it, asked as for every shore (measures.sql).
CREATE TYPE home AS (farthest float8, bank float8, parcels text);
CREATE FUNCTION home(f geometry, which text, reach float8) RETURNS home LANGUAGE sql STABLE PARALLEL SAFE COST 100000 AS $$
    WITH nearest AS (
        SELECT b.geom AS shore, (SELECT max(ST_Distance(p.geom, b.geom)) FROM ST_DumpPoints(ST_Segmentize(ST_Boundary(f), 0.1)) p) AS farthest
        FROM canal_bank b WHERE b.layer = which AND ST_DWithin(b.geom, f, reach) ORDER BY farthest LIMIT 1
    ), stretch AS (
        SELECT farthest, ST_Length(shore) AS length, shore, min(at) AS first, max(at) AS last
        FROM nearest, ST_DumpPoints(ST_Boundary(f)) p, LATERAL (SELECT ST_LineLocatePoint(shore, p.geom) AS at) foot GROUP BY farthest, shore
    )
    SELECT farthest, (last - first) * length,
           (SELECT string_agg(DISTINCT owner.parcel_id, '; ' ORDER BY owner.parcel_id)
            FROM ceil((last - first) * length / 3.048) steps, generate_series(1, steps::int) step,
                 LATERAL (SELECT ST_LineInterpolatePoint(shore, first + (step - 0.5) / steps * (last - first)) AS at) place,
                 LATERAL (SELECT p.parcel_id FROM parcels p WHERE ST_DWithin(p.geom, place.at, 9.144) ORDER BY p.geom <-> place.at LIMIT 1) owner)
    FROM stretch
$$;

-- A footprint that touches the shore has places on land, from which a way leads over it.
-- Feet farther apart than those on one bank can be (compare.py) are on two.
COPY (SELECT id, mhw_nearest > 0 AS afloat, CASE WHEN mhw_nearest > 0 THEN across(geom) END AS across,
             (high).farthest AS mhw_farthest, (high).bank, (high).parcels, (low).farthest AS mlw_farthest
      FROM measured JOIN footprint USING (id),
           LATERAL (SELECT CASE WHEN two THEN home(geom, 'mhw', mhw_nearest + diagonal) END AS high,
                           CASE WHEN two THEN home(geom, 'mlw', mlw_nearest + diagonal) END AS low
                    FROM (SELECT (behind).bank > diagonal + 2 * mhw_farthest OR (behind).shores > 1 AS two) feet OFFSET 0) homes
      ORDER BY id) TO STDOUT CSV HEADER;
