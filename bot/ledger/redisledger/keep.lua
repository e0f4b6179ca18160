-- Keeps messages, each once.
-- KEYS: 1 message stem, 2 in-seq, 3 in-ready, 4 lane stem
-- ARGV: for each message its key, its record, when it was kept (ms), its lane or ''
-- Returns for each message 1 where it is new, else 0.
local fresh = {}
for i = 1, #ARGV, 4 do
  local msg = KEYS[1] .. ARGV[i]
  if redis.call('EXISTS', msg) == 1 then
    fresh[#fresh + 1] = 0
  else
    local seq = redis.call('INCR', KEYS[2])
    redis.call('HSET', msg, 'r', ARGV[i + 1], 'q', seq, 'k', ARGV[i + 2], 'a', ARGV[i + 3], 's', 'in')
    if ARGV[i + 3] ~= '' then redis.call('ZADD', KEYS[4] .. ARGV[i + 3], seq, ARGV[i]) end
    redis.call('ZADD', KEYS[3], seq, ARGV[i])
    fresh[#fresh + 1] = 1
  end
end
return fresh
