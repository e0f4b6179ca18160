-- Gives numbers to new jobs, or takes back those that were given last.
-- KEYS: 1 number
-- ARGV: how many; or below 0, how many to take back, and then the last of them
-- Returns the last number that was given out, now or before.
local n = tonumber(ARGV[1])
if n < 0 and redis.call('GET', KEYS[1]) ~= ARGV[2] then return tonumber(redis.call('GET', KEYS[1])) end
return redis.call('INCRBY', KEYS[1], n)
