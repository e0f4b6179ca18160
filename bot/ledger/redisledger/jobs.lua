-- Lists jobs, newest first.
-- KEYS: 1 job stem, 2 history stem, then the sorted sets to list from
-- ARGV: 1 below this number ('+inf' for all), 2 how many at most
-- Returns for each job what load.lua does.
local ids, seen = {}, {}
for i = 3, #KEYS do
  for _, id in ipairs(redis.call('ZREVRANGEBYSCORE', KEYS[i], ARGV[1], '-inf', 'LIMIT', 0, ARGV[2])) do
    if not seen[id] then ids[#ids + 1] = id end
    seen[id] = true
  end
end
table.sort(ids, function(a, b) return tonumber(a) > tonumber(b) end)
local out = {}
for i = 1, math.min(#ids, tonumber(ARGV[2])) do
  local it = redis.call('HMGET', KEYS[1] .. ids[i], 'r', 'p', 'o')
  local plan, order = '', ''
  if it[2] then plan = redis.call('LINDEX', KEYS[2] .. ids[i], it[2] - 1) or '?' end
  if it[2] and it[3] ~= it[2] then order = redis.call('LINDEX', KEYS[2] .. ids[i], it[3] - 1) or '?' end
  out[#out + 1] = it[1] or '?'
  out[#out + 1] = plan
  out[#out + 1] = order
end
return out
