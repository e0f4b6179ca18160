-- Lets an item wait for another attempt, with those behind it, or sets it aside.
-- KEYS: as in outbox.lua
-- ARGV: 1 how long to remember keys (ms), 2 the item's key, 3 its tries, 4 when to try again (ms) or '' to set it aside,
--       5 why it is set aside, one line
-- Returns as sent.lua, for the one item.
local is, member, place, slot = mine(ARGV[2], ARGV[3])
if is ~= 'ok' then return is end
if ARGV[4] == '' then
  redis.call('HSET', ASIDE, 'out ' .. ARGV[2], ARGV[5] .. '\n' .. redis.call('HGET', POST .. ARGV[2], 'r'))
  gone(member, place, 'gone', ARGV[1])
  release(place)
elseif slot ~= '' and redis.call('HGET', SLOT .. slot, 'new') ~= ARGV[2] then
  -- A newer one came meanwhile: that one goes out instead.
  gone(member, place, 'gone', ARGV[1])
  release(place)
else
  redis.call('HSET', PLACE .. place, 'l', '0')
  look(place, ARGV[4])
end
return is
