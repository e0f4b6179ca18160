-- Keeps a change whole or not at all: everything is checked before anything is written.
-- KEYS: as in outbox.lua, then 8 message stem, 9 in-ready, 10 in-wait, 11 job stem, 12 history stem, 13 state stem, 14 due,
--       15 threads, 16 opened, 17 lane stem
-- ARGV: 1 token of this call, 2 how long to remember keys (ms), 3 key of the message that is done or '',
--       4 job or '', 5 expected revision, 6 new revision, 7 state, 8 next look (ms) or '', 9 the job's number padded, 10 record,
--       11 place, 12 key of the message that opened it or '', 13 and 14 places in the history of the entries that set its plan and its order, or '',
--       15 how many entries, then the entries; then for each item that goes out its
--       key, record, time (ms), place, slot
-- Returns 1 where it was kept, now or by an earlier try of this very call; -1 where the message was done before; -2 where the job is at
-- another revision.
local token, ttl, done, id = ARGV[1], ARGV[2], ARGV[3], ARGV[4]
local MSG, JOB = KEYS[8] .. done, KEYS[11] .. id
local was, old = {}, {}
if done ~= '' then
  was = redis.call('HMGET', MSG, 's', 't', 'a')
  if was[1] == 'done' then
    if was[2] == token then return 1 end
    return -1
  end
end
if id ~= '' then
  old = redis.call('HMGET', JOB, 'v', 's', 'n', 't')
  if old[4] == token then return 1 end
  if (old[1] or '0') ~= ARGV[5] then return -2 end
end

if was[1] then -- it was in the inbox
  if redis.call('ZREM', KEYS[10], done) == 0 then redis.call('ZREM', KEYS[9], done) end
  if was[3] and was[3] ~= '' then redis.call('ZREM', KEYS[17] .. was[3], done) end
  redis.call('HDEL', MSG, 'r')
  if was[1] == 'aside' then redis.call('HDEL', ASIDE, 'in ' .. done) end
end
if done ~= '' then
  redis.call('HSET', MSG, 's', 'done', 't', token)
  redis.call('PEXPIRE', MSG, ttl)
end
local entries = tonumber(ARGV[15])
if id ~= '' then
  if not old[1] then
    redis.call('ZADD', KEYS[15], 'GT', id, ARGV[11])
    if ARGV[12] ~= '' then redis.call('HSET', KEYS[16], ARGV[12], id) end
  end
  if old[2] ~= ARGV[7] then
    if old[2] then redis.call('ZREM', KEYS[13] .. old[2], id) end
    redis.call('ZADD', KEYS[13] .. ARGV[7], id, id)
  end
  if ARGV[8] ~= '' then
    redis.call('ZADD', KEYS[14], ARGV[8], ARGV[9])
  elseif old[3] and old[3] ~= '' then
    redis.call('ZREM', KEYS[14], ARGV[9])
  end
  local job = { 'r', ARGV[10], 'v', ARGV[6], 's', ARGV[7], 'n', ARGV[8], 't', token }
  for i, field in ipairs({ 'p', 'o' }) do
    if ARGV[12 + i] ~= '' then
      job[#job + 1] = field
      job[#job + 1] = ARGV[12 + i]
    end
  end
  redis.call('HSET', JOB, unpack(job))
  if entries > 0 then redis.call('RPUSH', KEYS[12] .. id, unpack(ARGV, 16, 15 + entries)) end
end
for i = 16 + entries, #ARGV, 5 do enqueue(ARGV[i], ARGV[i + 1], ARGV[i + 2], ARGV[i + 3], ARGV[i + 4], ttl) end
return 1
