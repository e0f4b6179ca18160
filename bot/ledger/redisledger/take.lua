-- Leases messages, oldest first.
-- KEYS: 1 message stem, 2 in-ready, 3 in-wait
-- ARGV: 1 now (ms), 2 lease until (ms), 3 how many at most
-- Returns for each message its record and its tries.
for _, key in ipairs(redis.call('ZRANGEBYSCORE', KEYS[3], '-inf', ARGV[1])) do
  redis.call('ZREM', KEYS[3], key)
  redis.call('ZADD', KEYS[2], redis.call('HGET', KEYS[1] .. key, 'q'), key)
end
local out = {}
for _, key in ipairs(redis.call('ZRANGE', KEYS[2], 0, ARGV[3] - 1)) do
  local msg = KEYS[1] .. key
  local tries = redis.call('HINCRBY', msg, 'n', 1)
  redis.call('ZREM', KEYS[2], key)
  redis.call('ZADD', KEYS[3], ARGV[2], key)
  out[#out + 1] = redis.call('HGET', msg, 'r')
  out[#out + 1] = tries
end
return out
