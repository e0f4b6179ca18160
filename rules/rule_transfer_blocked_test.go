package rules

var _ = rows("transfer-blocks-dye",
	says("dyed polyester", tee("polyester 100", "navy", "full"), on(DTF, BlockOut), on(HeatTransfer, BlockOut), is(DTF, Test)),
	quiet("white polyester", tee("polyester 100", "white", "full"), on(DTF, NoBase)),
	quiet("cotton", tee("cotton 100", "navy", "full"), on(DTF, NoBase), is(DTF, Yes)),
)
