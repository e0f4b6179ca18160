-- Lists jobs, newest first.
-- KEYS: 1 job stem, then the sorted sets to list from
-- ARGV: 1 below this number ('+inf' for all), 2 how many at most
-- Returns the jobs' records.
local ids, seen = {}, {}
for i = 2, #KEYS do
  for _, id in ipairs(redis.call('ZREVRANGEBYSCORE', KEYS[i], ARGV[1], '-inf', 'LIMIT', 0, ARGV[2])) do
    if not seen[id] then ids[#ids + 1] = id end
    seen[id] = true
  end
end
table.sort(ids, function(a, b) return tonumber(a) > tonumber(b) end)
local out = {}
for i = 1, math.min(#ids, tonumber(ARGV[2])) do out[i] = redis.call('HGET', KEYS[1] .. ids[i], 'r') end
return out
