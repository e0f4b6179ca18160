-- Reads a job.
-- KEYS: 1 the job, 2 its history
-- Returns its record, the entry that set its plan, and the entry that set its order ('' where it is the same one, or where the record has
-- both), '?' for an entry that is lost; nothing where there is no such job.
local it = redis.call('HMGET', KEYS[1], 'r', 'p', 'o')
if not it[1] then return {} end
if not it[2] then return { it[1], '', '' } end
local order = ''
if it[3] ~= it[2] then order = redis.call('LINDEX', KEYS[2], it[3] - 1) or '?' end
return { it[1], redis.call('LINDEX', KEYS[2], it[2] - 1) or '?', order }
