-- Gives a message back, or sets it aside.
-- KEYS: 1 message stem, 2 in-ready, 3 in-wait, 4 aside, 5 lane stem
-- ARGV: 1 the message's key, 2 when it may be taken again (ms), '' to set it aside
-- Returns 1, 0 where there is no such message, -1 where it is done.
local key = ARGV[1]
local msg = KEYS[1] .. key
local was = redis.call('HMGET', msg, 's', 'a', 'q')
local state, lane = was[1], was[2]
if not state then return 0 end
if state == 'done' then return -1 end
redis.call('ZREM', KEYS[2], key)
redis.call('ZREM', KEYS[3], key)
if ARGV[2] == '' then
  redis.call('HSET', msg, 's', 'aside')
  if lane ~= '' then redis.call('ZREM', KEYS[5] .. lane, key) end
  redis.call('HSET', KEYS[4], 'in ' .. key, '')
else
  redis.call('HSET', msg, 's', 'in')
  if lane ~= '' then redis.call('ZADD', KEYS[5] .. lane, was[3], key) end
  redis.call('HDEL', KEYS[4], 'in ' .. key)
  redis.call('ZADD', KEYS[3], ARGV[2], key)
end
return 1
