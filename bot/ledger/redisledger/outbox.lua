-- What the scripts of the outbox share.
-- KEYS: 1 out-ready, 2 queue stem, 3 place stem, 4 post stem, 5 slot stem, 6 aside, 7 out-seq
-- A member of a queue is the item's order in 16 digits, a colon, and its key.
local READY, QUEUE, PLACE, POST, SLOT, ASIDE, OUTSEQ = KEYS[1], KEYS[2], KEYS[3], KEYS[4], KEYS[5], KEYS[6], KEYS[7]

local function keyof(member) return string.sub(member, 18) end

-- Notes when a place must be looked at.
local function look(place, at) redis.call('ZADD', READY, at, place) end

-- Lets the next item of a place have its turn, or lets go of the place.
local function release(place)
  redis.call('DEL', PLACE .. place)
  local first = redis.call('ZRANGE', QUEUE .. place, 0, 0)[1]
  if first then
    look(place, redis.call('HGET', POST .. keyof(first), 'a'))
  else
    redis.call('ZREM', READY, place)
  end
end

-- Takes an item off: only its key is remembered, until it expires.
local function gone(member, place, state, ttl)
  local post = POST .. keyof(member)
  redis.call('ZREM', QUEUE .. place, member)
  redis.call('HDEL', post, 'r')
  redis.call('HSET', post, 's', state)
  redis.call('PEXPIRE', post, ttl)
end

-- Puts an item behind what waits for its place. One that was saved before does nothing.
local function enqueue(key, record, at, place, slot, ttl)
  local post = POST .. key
  if redis.call('EXISTS', post) == 1 then return end
  local member = string.format('%016.0f:', redis.call('INCR', OUTSEQ)) .. key
  redis.call('HSET', post, 'r', record, 'm', member, 'a', at, 'p', place, 'l', slot, 'n', 0, 's', 'out')
  redis.call('ZADD', QUEUE .. place, at, member)
  if slot ~= '' then redis.call('HSET', SLOT .. slot, 'new', key) end
  if redis.call('ZADD', READY, 'NX', at, place) == 1 then return end -- nothing waited there
  local holder = redis.call('HMGET', PLACE .. place, 'h', 'l')
  if holder[1] then
    -- It waits its turn, unless it takes the place of one that waits for another attempt.
    if holder[2] ~= '1' and slot ~= '' and redis.call('HGET', POST .. keyof(holder[1]), 'l') == slot then
      gone(holder[1], place, 'gone', ttl)
      release(place)
    end
    return
  end
  redis.call('ZADD', READY, 'LT', at, place)
end

-- An item that the caller leased: 'ok', 'sent' where it went out by this very attempt, 'none', or 'other' where somebody else has it.
-- Beside it the item's member, place and slot.
local function mine(key, tries)
  local it = redis.call('HMGET', POST .. key, 'm', 'p', 'l', 'n', 's')
  if not it[1] then return 'none' end
  if it[4] ~= tries or it[5] == 'gone' then return 'other' end
  if it[5] == 'sent' then return 'sent' end
  local holder = redis.call('HMGET', PLACE .. it[2], 'h', 'l')
  if holder[1] ~= it[1] or holder[2] ~= '1' then return 'other' end
  return 'ok', it[1], it[2], it[3]
end
