-- Leases messages, oldest first, none before an earlier one of its lane.
-- KEYS: 1 message stem, 2 in-ready, 3 in-wait, 4 lane stem
-- ARGV: 1 now (ms), 2 lease until (ms), 3 how many at most
-- Returns for each message its record and its tries.
for _, key in ipairs(redis.call('ZRANGEBYSCORE', KEYS[3], '-inf', ARGV[1])) do
  redis.call('ZREM', KEYS[3], key)
  redis.call('ZADD', KEYS[2], redis.call('HGET', KEYS[1] .. key, 'q'), key)
end
local out, most, chosen, passed = {}, tonumber(ARGV[3]), {}, 0
-- Those that wait for an earlier one of their lane are passed over; a thousand of them in one go at most.
while most > 0 and passed < 1000 do
  local page = redis.call('ZRANGE', KEYS[2], passed, passed + math.max(most, 20) - 1)
  if #page == 0 then break end
  for _, key in ipairs(page) do
    local msg = KEYS[1] .. key
    local lane = redis.call('HGET', msg, 'a')
    -- It is its turn where all before it in its lane were chosen just now.
    if lane == '' or redis.call('ZRANK', KEYS[4] .. lane, key) == (chosen[lane] or 0) then
      chosen[lane] = (chosen[lane] or 0) + 1
      local tries = redis.call('HINCRBY', msg, 'n', 1)
      redis.call('ZREM', KEYS[2], key)
      redis.call('ZADD', KEYS[3], ARGV[2], key)
      out[#out + 1] = redis.call('HGET', msg, 'r')
      out[#out + 1] = tries
      most = most - 1
      if most == 0 then break end
    else
      passed = passed + 1
    end
  end
end
return out
