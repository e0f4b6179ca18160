# Two stages: build one static program, then ship it alone, as nobody in particular.
FROM golang:1.26 AS build
WORKDIR /src
COPY go.mod go.sum ./
RUN go mod download
COPY . .
RUN CGO_ENABLED=0 go build -trimpath -ldflags "-s -w" -tags timetzdata -o /strikeoff ./cmd/strikeoff

# Certificates for chat and webhook calls come with this base; it has no shell and no package manager.
FROM gcr.io/distroless/static-debian12:nonroot
COPY --from=build /strikeoff /strikeoff
COPY LICENSE /LICENSE
VOLUME /data
WORKDIR /data
# The program keeps little in memory: letting it grow to five times that before collecting leaves a tenth of the processor for orders.
ENV STRIKEOFF_LEDGER=/data/strikeoff.db \
    STRIKEOFF_LISTEN=:8080 \
    GOGC=400
EXPOSE 8080
USER nonroot
ENTRYPOINT ["/strikeoff"]
CMD ["serve"]
