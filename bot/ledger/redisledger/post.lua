-- Leases items, those first that have been due longest, one a place.
-- KEYS: as in outbox.lua
-- ARGV: 1 now (ms), 2 lease until (ms), 3 how many at most, 4 how long to remember keys (ms)
-- Returns for each item its record, its tries, and the post that its slot holds.
local now, out, leased = tonumber(ARGV[1]), {}, 0

-- Leases the first item of a place whose time has come; false where the place has none that is due.
local function lease(place)
  local member = redis.call('HGET', PLACE .. place, 'h')
  while true do
    local held = member
    member = member or redis.call('ZRANGE', QUEUE .. place, 0, 0)[1]
    if not member then
      redis.call('DEL', PLACE .. place)
      redis.call('ZREM', READY, place)
      return false
    end
    local post = POST .. keyof(member)
    local it = redis.call('HMGET', post, 'r', 'a', 'l')
    local slot = { '', false }
    if it[3] ~= '' then slot = redis.call('HMGET', SLOT .. it[3], 'ref', 'new') end
    if it[3] ~= '' and slot[2] ~= keyof(member) then
      -- A newer one for the slot waits: this one need not go out.
      gone(member, place, 'gone', ARGV[4])
      redis.call('DEL', PLACE .. place)
      member = nil
    elseif not held and tonumber(it[2]) > now then
      look(place, it[2])
      return false
    else
      out[#out + 1] = it[1]
      out[#out + 1] = redis.call('HINCRBY', post, 'n', 1)
      out[#out + 1] = slot[1] or ''
      redis.call('HSET', PLACE .. place, 'h', member, 'l', '1')
      look(place, ARGV[2])
      return true
    end
  end
end

while leased < tonumber(ARGV[3]) do
  local place = redis.call('ZRANGEBYSCORE', READY, '-inf', ARGV[1], 'LIMIT', 0, 1)[1]
  if not place then break end
  if lease(place) then leased = leased + 1 end
end
return out
