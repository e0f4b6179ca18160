-- Keeps a change whole or not at all: everything is checked before anything is written.
-- KEYS: as in outbox.lua, then 8 message stem, 9 in-ready, 10 in-wait, 11 job stem, 12 history stem, 13 jobs, 14 state stem, 15 due,
--       16 threads, 17 opened, 18 number, 19 lane stem
-- ARGV: 1 token of this call, 2 how long to remember keys (ms), 3 key of the message that is done or '',
--       4 job or '', 5 expected revision, 6 new revision, 7 state, 8 next look (ms) or '', 9 the job's number padded, 10 record,
--       11 place, 12 key of the message that opened it or '', 13 how many entries, then the entries; then for each item that goes out its
--       key, record, time (ms), place, slot
-- Returns 1 where it was kept, now or by an earlier try of this very call; -1 where the message was done before; -2 where the job is at
-- another revision.
local lane = ''
local token, ttl, done, id = ARGV[1], ARGV[2], ARGV[3], ARGV[4]
local MSG, JOB = KEYS[8] .. done, KEYS[11] .. id
if done ~= '' then
  local was = redis.call('HMGET', MSG, 's', 't', 'a')
  if was[1] == 'done' then
    if was[2] == token then return 1 end
    return -1
  end
  lane = was[3] or ''
end
local old = { false, false, false, false }
if id ~= '' then
  old = redis.call('HMGET', JOB, 'v', 's', 'n', 't')
  if old[4] == token then return 1 end
  if (old[1] or '0') ~= ARGV[5] then return -2 end
end

if done ~= '' then
  redis.call('ZREM', KEYS[9], done)
  redis.call('ZREM', KEYS[10], done)
  if lane ~= '' then redis.call('ZREM', KEYS[19] .. lane, done) end
  redis.call('HDEL', MSG, 'r')
  redis.call('HDEL', ASIDE, 'in ' .. done)
  redis.call('HSET', MSG, 's', 'done', 't', token)
  redis.call('PEXPIRE', MSG, ttl)
end
local entries = tonumber(ARGV[13])
if id ~= '' then
  if not old[1] then
    redis.call('ZADD', KEYS[13], id, id)
    local newest = redis.call('HGET', KEYS[16], ARGV[11])
    if not newest or tonumber(newest) < tonumber(id) then redis.call('HSET', KEYS[16], ARGV[11], id) end
    if ARGV[12] ~= '' then redis.call('HSET', KEYS[17], ARGV[12], id) end
    if tonumber(redis.call('GET', KEYS[18]) or '0') < tonumber(id) then redis.call('SET', KEYS[18], id) end
  end
  if old[2] ~= ARGV[7] then
    if old[2] then redis.call('ZREM', KEYS[14] .. old[2], id) end
    redis.call('ZADD', KEYS[14] .. ARGV[7], id, id)
  end
  if ARGV[8] ~= '' then
    redis.call('ZADD', KEYS[15], ARGV[8], ARGV[9])
  elseif old[3] and old[3] ~= '' then
    redis.call('ZREM', KEYS[15], ARGV[9])
  end
  redis.call('HSET', JOB, 'r', ARGV[10], 'v', ARGV[6], 's', ARGV[7], 'n', ARGV[8], 't', token)
  for i = 14, 13 + entries do redis.call('RPUSH', KEYS[12] .. id, ARGV[i]) end
end
for i = 14 + entries, #ARGV, 5 do enqueue(ARGV[i], ARGV[i + 1], ARGV[i + 2], ARGV[i + 3], ARGV[i + 4], ttl) end
return 1
