-- Takes items off that went out, and remembers what post their slots hold now.
-- KEYS: as in outbox.lua
-- ARGV: 1 how long to remember keys (ms); then for each item its key, its tries, the post ('' where the door gave none)
-- Returns for each item 'ok', 'sent' where this very attempt was acknowledged before, 'none', or 'other' where somebody else has it.
local said = {}
for i = 2, #ARGV, 3 do
  local is, member, place, slot = mine(ARGV[i], ARGV[i + 1])
  if is == 'ok' then
    if slot ~= '' and ARGV[i + 2] ~= '' then redis.call('HSET', SLOT .. slot, 'ref', ARGV[i + 2]) end
    gone(member, place, 'sent', ARGV[1])
    release(place)
  end
  said[#said + 1] = is
end
return said
