-- Counts what waits, and writes to see that writing works.
-- KEYS: 1 message stem, 2 in-ready, 3 in-wait, 4 out-ready, 5 queue stem, 6 post stem, 7 aside, 8 probe
-- ARGV: 1 now (ms)
-- Returns how many messages wait, when the oldest was kept (ms, '' for none), how many items wait, when the oldest was due (ms, '' for
-- none), how many are aside.
redis.call('SET', KEYS[8], ARGV[1], 'PX', 60000)
local kept, oldest = '', nil
local keys = redis.call('ZRANGE', KEYS[3], 0, -1)
keys[#keys + 1] = redis.call('ZRANGE', KEYS[2], 0, 0)[1]
for _, key in ipairs(keys) do
  local m = redis.call('HMGET', KEYS[1] .. key, 'q', 'k')
  if m[1] and (not oldest or tonumber(m[1]) < oldest) then oldest, kept = tonumber(m[1]), m[2] end
end
local out, due = 0, ''
for _, place in ipairs(redis.call('ZRANGE', KEYS[4], 0, -1)) do
  out = out + redis.call('ZCARD', KEYS[5] .. place)
  local first = redis.call('ZRANGE', KEYS[5] .. place, 0, 0)[1]
  if first then
    local at = redis.call('HGET', KEYS[6] .. string.sub(first, 18), 'a')
    if due == '' or tonumber(at) < tonumber(due) then due = at end
  end
end
return { redis.call('ZCARD', KEYS[2]) + redis.call('ZCARD', KEYS[3]), kept, out, due, redis.call('HLEN', KEYS[7]) }
