-- One query for each rule of SqlTest: trigger, ending, place of the break, margin (nanoseconds, or the compared
-- quantity). A span that does not come is NULL, which greatest() would pass over. A demand that was so before the trigger
-- (with a resolution: by at least that) is met by nothing that was done.

-- WITHIN
WITH answered AS (
  SELECT r.t AS trigger, r.t + 100000000 AS d, CASE WHEN s.t0 IS NOT NULL THEN greatest(r.t, s.t0) END AS s,
    s.since < r.t AS so
  FROM rise r ASOF LEFT JOIN (FROM span WHERE signal = 'b' AND v = 1) s ON r.t < s.t1 WHERE r.signal = 'a')
SELECT trigger, CASE WHEN s <= d AND so THEN 'already so' WHEN s <= d THEN 'met' WHEN d <= finish.t THEN 'missed' ELSE 'open' END AS ending, d AS place,
  CASE WHEN so THEN NULL WHEN s IS NOT NULL THEN d - s WHEN d <= finish.t THEN d - finish.t END AS margin
FROM answered, finish;

-- NEAR
WITH answered AS (
  SELECT r.t AS trigger, r.t + 60000000 AS d, CASE WHEN s.t0 IS NOT NULL THEN greatest(r.t, s.t0) END AS s,
    s.since <= r.t - 10000000 AS so, p.t1 > r.t OR l.t0 > r.t - 10000000 AND l.t0 < r.t AS maybe
  FROM fall r ASOF LEFT JOIN (FROM span WHERE signal = 'b' AND v = 0) s ON r.t + 10000000 <= s.t1
    ASOF LEFT JOIN (FROM span WHERE signal = 'b' AND v = 0) p ON r.t + 10000000 > p.t0
    ASOF LEFT JOIN (FROM span WHERE signal = 'b') l ON r.t >= l.t0 WHERE r.signal = 'a')
SELECT trigger, CASE WHEN so AND s <= d - 10000000 THEN 'already so' WHEN s = trigger OR s <= d - 10000000 THEN 'met' WHEN abs(s - d) < 10000000 THEN 'borderline'
  WHEN d <= finish.t AND maybe THEN 'borderline'
  WHEN d <= finish.t THEN 'missed' ELSE 'open' END AS ending, d AS place,
  CASE WHEN so THEN NULL WHEN s IS NOT NULL THEN d - s WHEN d <= finish.t THEN d - finish.t END AS margin
FROM answered, finish;

-- THROUGHOUT
WITH fallen AS (
  SELECT r.t AS trigger, r.t + 40000000 AS d, CASE WHEN s.t0 IS NOT NULL THEN greatest(r.t, s.t0) END AS f
  FROM rise r ASOF LEFT JOIN (FROM span WHERE signal = 'b' AND v = 1) s ON r.t < s.t1 WHERE r.signal = 'c')
SELECT trigger, CASE WHEN f <= d THEN 'missed' WHEN d > finish.t THEN 'open' ELSE 'met' END AS ending, f AS place,
  CASE WHEN f <= d THEN f - d END AS margin
FROM fallen, finish;

-- SPEED
SELECT r.t AS trigger, CASE WHEN s.v <= 3 THEN 'met' ELSE 'missed' END AS ending, r.t AS place, 3 - s.v AS margin
FROM rise r ASOF JOIN (FROM span WHERE signal = 'v') s ON r.t >= s.t0 WHERE r.signal = 'c';

-- LIMIT
WITH marked AS (
  SELECT t, v, b = 1 AS applies, b = 1 AND v > 5 AS violated, lag(b = 1) OVER (ORDER BY t) AS applied,
    lag(b = 1 AND v > 5) OVER (ORDER BY t) AS was
  FROM state),
numbered AS (
  SELECT *, sum(CASE WHEN applies AND applied IS DISTINCT FROM true THEN 1 ELSE 0 END) OVER (ORDER BY t) AS stretch FROM marked),
stretched AS (
  SELECT *, min(t) FILTER (applies) OVER (PARTITION BY stretch) AS since,
    bool_or(violated) OVER (PARTITION BY stretch) AS broken FROM numbered)
SELECT since AS trigger,
  CASE WHEN violated AND was IS DISTINCT FROM true THEN 'missed' WHEN t = since AND NOT broken THEN 'met' END AS ending,
  t AS place, 5 - v AS margin
FROM stretched WHERE applies;

-- NEVER
WITH marked AS (SELECT t, a + c + d = 3 AS violated, lag(a + c + d = 3) OVER (ORDER BY t) AS was FROM state)
SELECT 0 AS trigger, 'missed' AS ending, t AS place, NULL AS margin FROM marked WHERE violated AND was IS DISTINCT FROM true;

-- BEFORE
WITH answered AS (
  SELECT r.t AS trigger, s.t AS s, l.t AS d
  FROM rise r
  ASOF LEFT JOIN (FROM rise WHERE signal = 'c') s ON r.t <= s.t
  ASOF LEFT JOIN (FROM rise WHERE signal = 'd') l ON r.t < l.t
  WHERE r.signal = 'a')
SELECT trigger, CASE WHEN s <= coalesce(d, s) THEN 'met' WHEN d IS NOT NULL THEN 'missed' ELSE 'open' END AS ending, d AS place,
  CASE WHEN d IS NOT NULL THEN d - coalesce(s, finish.t) END AS margin
FROM answered, finish;

-- STAY
WITH answered AS (
  SELECT r.t AS trigger, r.t + 60000000 AS d, CASE WHEN s.t0 IS NOT NULL THEN greatest(r.t, s.t0) END AS s, s.t1 AS f,
    s.since < r.t AS so
  FROM fall r ASOF LEFT JOIN (FROM span WHERE signal = 'b' AND v = 0) s ON r.t < s.t1 WHERE r.signal = 'd')
SELECT trigger,
  CASE WHEN s <= d AND f <= s + 50000000 THEN 'missed' WHEN s <= d AND s + 50000000 > finish.t THEN 'open' WHEN s <= d AND so THEN 'already so' WHEN s <= d THEN 'met'
    WHEN d <= finish.t THEN 'missed' ELSE 'open' END AS ending,
  CASE WHEN s <= d THEN f ELSE d END AS place,
  least(CASE WHEN so THEN NULL WHEN s IS NOT NULL THEN d - s WHEN d <= finish.t THEN d - finish.t END,
    CASE WHEN s <= d AND f <= s + 50000000 THEN f - (s + 50000000) END) AS margin
FROM answered, finish;

-- HELD
WITH held AS (
  SELECT t0 + 100000000 AS trigger FROM span, finish
  WHERE signal = 'c' AND v = 1 AND t0 + 100000000 < t1 AND t0 + 100000000 <= finish.t)
SELECT h.trigger, CASE WHEN s.v = 1 THEN 'met' ELSE 'missed' END AS ending, h.trigger AS place, NULL AS margin
FROM held h ASOF JOIN (FROM span WHERE signal = 'b') s ON h.trigger >= s.t0;

-- COUNT
WITH step AS (
  SELECT 2 * t AS moment, 1 AS delta FROM rise WHERE signal = 'a'
  UNION ALL SELECT 2 * (t + 1000000000) + 1, -1 FROM rise WHERE signal = 'a'
  UNION ALL SELECT 0, 0),
summed AS (SELECT moment, sum(sum(delta)) OVER (ORDER BY moment) AS n FROM step GROUP BY moment),
marked AS (SELECT moment, n, lag(n) OVER (ORDER BY moment) AS was FROM summed, finish WHERE moment <= 2 * finish.t)
SELECT 0 AS trigger, CASE WHEN n > 4 AND coalesce(was, 0) <= 4 THEN 'missed' END AS ending, moment // 2 AS place, 4 - n AS margin
FROM marked;

-- UNLESS
WITH answered AS (
  SELECT r.t AS trigger, r.t + 100000000 AS d, CASE WHEN s.t0 IS NOT NULL THEN greatest(r.t, s.t0) END AS s, s.since < r.t AS so,
    CASE WHEN x.t0 IS NOT NULL THEN greatest(r.t, x.t0) END AS fault
  FROM rise r
  ASOF LEFT JOIN (FROM span WHERE signal = 'b' AND v = 1) s ON r.t < s.t1
  ASOF LEFT JOIN (FROM span WHERE signal = 'm' AND v = 2) x ON r.t < x.t1
  WHERE r.signal = 'd')
SELECT trigger,
  CASE WHEN fault <= least(coalesce(s, d), d, finish.t) THEN 'cancelled' WHEN s <= d AND so THEN 'already so' WHEN s <= d THEN 'met'
    WHEN d <= finish.t THEN 'missed' ELSE 'open' END AS ending,
  d AS place,
  CASE WHEN fault <= least(coalesce(s, d), d, finish.t) THEN NULL WHEN so THEN NULL WHEN s IS NOT NULL THEN d - s
    WHEN d <= finish.t THEN d - finish.t END AS margin
FROM answered, finish;

-- LAST
SELECT r.t AS trigger, CASE WHEN s.t1 > r.t - 60000000 THEN 'met' ELSE 'missed' END AS ending, r.t AS place, NULL AS margin
FROM rise r ASOF LEFT JOIN (FROM span WHERE signal = 'a' AND v = 1) s ON r.t >= s.t0 WHERE r.signal = 'c';
